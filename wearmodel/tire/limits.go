package tire

// Tread depths, m.
const (
	inch = 0.0254

	// WearBar is the depth of the wear bars, 2/32 in: the tire is used up
	// when its shallowest zone gets there. 49 CFR 570.9, from memory.
	WearBar = 2 * inch / 32
	// LegalEU is the least depth in the European Union, Directive 89/459/EEC.
	LegalEU = 1.6e-3
	// RainDepth is what a leg in rain asks for, 4/32 in: below it the
	// published wet stops grow fast.
	RainDepth = 4 * inch / 32
)

// wetStops are depth (m) and stop (m) from 60 mph on a wet road: a published
// retail test of one car and one tire at 10, 6, 4 and 2/32 in, by way of a
// secondary source.
var wetStops = [...]struct{ depth, stop float64 }{
	{2 * inch / 32, 356 * 12 * inch},
	{4 * inch / 32, 282 * 12 * inch},
	{6 * inch / 32, 253 * 12 * inch},
	{10 * inch / 32, 234 * 12 * inch},
}

// WetStop is the distance (m) in which the car of a published retail test
// stopped from 60 mph on a wet road with treads of the given depth (m): to
// compare depths by, not a forecast for another car. Straight lines between
// the test's four depths; outside 2/32 to 10/32 in the nearest one's distance.
func WetStop(depth float64) float64 {
	last := wetStops[0]
	if depth <= last.depth {
		return last.stop
	}
	for _, next := range wetStops[1:] {
		if depth < next.depth {
			share := (depth - last.depth) / (next.depth - last.depth)
			return last.stop + float64(share*(next.stop-last.stop))
		}
		last = next
	}
	return last.stop
}
