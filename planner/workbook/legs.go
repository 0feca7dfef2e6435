package workbook

import (
	"fmt"
	"math"
	"strings"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
)

// usage is what a leg's rates are multiplied by, live.
type usage struct {
	distance ref // driven, in the workbook's unit
	laps     ref // hot
	minutes  ref // of circuit sessions
	name     ref // no figure, the leg's name
}

// Columns of the Legs sheet that others point to.
const (
	legName = 3 + iota
	legDistance
	legDays
	legSessions
	legMinutes
	legLaps
	legLapTime
	legFuel  = 15
	legTanks = 16
	legMark  = 21

	legFirst = 5
)

var legWidths = []float64{4, 13, 27, 9, 6, 8.5, 7.5, 7.5, 7.5, 6.5, 6.5, 8.5, 9, 6.5, 7, 7, 12, 7, 7, 7, 8.5}

// legs lists the trip as it will be driven, a row a leg, with the inputs that
// say how far and how long.
func (b *book) legs() {
	s := b.trip
	s.title("Legs", "Write another distance, or other days, sessions and minutes, into the marked cells, and every sheet follows. A circuit known by its summary alone has wider figures; (s) marks it.")
	b.warn(s)
	u := b.u
	s.add(left("No."), left("Kind"), left("Name"), right(u.distance.head("Distance")), right("Days like this"), right("Sessions a day"), right("Minutes each"),
		right("Hot laps"), right("Lap time, m:s"), right("Pace, %"), right("Left share, %"), right("Heavy brakings a lap"),
		right(u.heat.head("Ambient")), right("Rain, %"), right(u.fuel.head("Fuel")), right("Tanks"), right("Ends, as planned"),
		right(u.heat.head("Front rotor peak")), right(u.heat.head("Rear rotor peak")), right(u.heat.head("Fluid peak")), left("Changed"))
	s.head = len(s.rows)
	first := s.next()
	metres, fuel, tanks := 0.0, 0.0, 0.0
	for j, l := range b.p.Legs {
		metres, fuel, tanks = metres+l.Metres, fuel+l.FuelUsed, tanks+l.Tanks
		b.leg(s, j)
	}
	last := s.next() - 1
	total := look{total: true}
	cells := make([]cell, len(s.widths))
	for i := range cells {
		cells[i] = blank(total)
	}
	adds := func(col int) string {
		return fmt.Sprintf("SUM(%s)", s.at(col, first, 0).upTo(s.at(col, last, 0), s))
	}
	cells[legName-1] = text(total, "Total")
	cells[legDistance-1] = live(total, u.distance.format, adds(legDistance), u.distance.of(metres))
	cells[legFuel-1] = live(total, u.fuel.format, adds(legFuel), u.fuel.of(fuel))
	cells[legTanks-1] = live(total, asTenth, adds(legTanks), tanks)
	n := s.add(cells...)
	b.totals.distance = s.at(legDistance, n, u.distance.of(metres))
	b.totals.fuel, b.totals.tanks = s.at(legFuel, n, u.fuel.of(fuel)), s.at(legTanks, n, tanks)
	flag := func(i int) cell {
		return live(look{}, "0", fmt.Sprintf("SUM(%s)", s.hiddenAt(i, first, 0).upTo(s.hiddenAt(i, last, 0), s)), 0)
	}
	s.hide(1, flag(legChanged), flag(legHeat))
	s.span(look{weight: quiet}, "Hot laps: what fits into a session beside an out and an in lap, which take together as long as 2.6 hot laps (engineering choice). A day driven twice is 2, a day lost to rain is 0. "+
		"Wear goes by the lap: as the program has it for other distances and days, within 1 % for other numbers of sessions. Minutes change the laps, and tread and hubs follow within 5 %; pads and rotors heat otherwise, so theirs is struck out. "+
		"Left share is the share of the cornering load taken in left turns, which wear the right-hand side. Peaks, as planned, are the hottest moment of a session, after a braking, in the median.")
	b.rain(s)
}

// Hidden cells of a leg's row: whether it changed, its inputs as planned, and
// what a unit of it takes.
const (
	legChanged = iota
	legPlanA   // distance, or days
	legPlanB   // sessions
	legPlanC   // minutes
	legRound   // a lap's length
	legBurn    // fuel a lap or a distance
	legTank    // a tank
	legMinutesAll
	legHeat // whether the sessions' length changed
)

// leg is one row; what a kind of leg does not have stays empty.
func (b *book) leg(s *sheet, j int) {
	l, u := b.p.Legs[j], b.u
	box := look{box: true}
	cells := make([]cell, len(s.widths))
	for i := range cells {
		cells[i] = blank(box)
	}
	n := s.next()
	name := l.Name
	if len(l.Can) > 0 {
		name += " (" + strings.Join(l.Can, ", ") + ")"
	}
	if l.BySummary {
		name += " (s)"
	}
	kind := string(l.Kind)
	if l.Kind == profiles.RoadLeg && l.Surface != "" {
		kind += ", " + l.Surface
	}
	ends := number(box, asTenth, l.EndDay)
	if !b.p.Depart.IsZero() {
		ends = day(box, b.at(j))
	} else {
		ends.look.format = `"day "0.0`
	}
	cells[0] = number(look{box: true, across: "left"}, "0", float64(j+1))
	cells[1], cells[2] = text(box, kind), text(look{weight: strong, box: true}, name)
	cells[16] = asPlanned(ends)
	if l.Kind == profiles.StopLeg {
		s.add(cells...)
		return
	}
	distance, fuel := tidy(u.distance.of(l.Metres)), u.fuel.of(l.FuelUsed)
	at := func(i int) string { return s.hiddenAt(i, n, 0).in(s) }
	in := look{input: true}
	use := usage{distance: s.at(legDistance, n, distance), name: s.at(legName, n, 0)}
	cells[12], cells[13] = u.heat.in(box, l.Ambient), number(box, asShare, l.Rain)
	// at the same ratio to the tank as the plan's; no tank, no tanks
	tank := 0.0
	if l.Tanks > 0 {
		tank = fuel / l.Tanks
	}
	var hidden []cell
	var burn float64
	if l.Kind == profiles.RoadLeg {
		cells[legDistance-1] = number(in, u.distance.format, distance)
		s.restrict(use.distance.in(s), rule{most: 99_999})
		burn = over(fuel, distance)
		cells[legFuel-1] = live(box, u.fuel.format, fmt.Sprintf("%s*%s", use.distance.in(s), at(legBurn)), distance*burn)
		changed := fmt.Sprintf("IF(%s<>%s,1,0)", use.distance.in(s), at(legPlanA))
		hidden = []cell{live(look{}, "0", changed, 0), number(look{}, asTenth, distance), blank(look{}), blank(look{}), blank(look{})}
	} else {
		hidden, burn = b.circuitDay(s, cells, l, n, &use)
	}
	used := s.at(legFuel, n, fuel)
	cells[legTanks-1] = live(box, asTenth, fmt.Sprintf("IF(%[2]s>0,%[1]s/%[2]s,0)", used.in(s), at(legTank)), l.Tanks)
	cells[legMark-1] = told(look{box: true, weight: warning}, fmt.Sprintf(`IF(%s>0,"changed","")`, at(legChanged)), "")
	s.add(cells...)
	s.hide(n, append(hidden, number(look{}, "0.0000", burn), number(look{}, asTenth, tank))...)
	if l.Kind == profiles.CircuitLeg {
		product := fmt.Sprintf("%s*%s*%s", s.at(legDays, n, 0).in(s), s.at(legSessions, n, 0).in(s), s.at(legMinutes, n, 0).in(s))
		longer := fmt.Sprintf("IF(%s<>%s,1,0)", s.at(legMinutes, n, 0).in(s), at(legPlanC))
		s.hide(n, live(look{}, "0", product, use.minutes.v), live(look{}, "0", longer, 0))
	}
	b.use[j] = use
}

// circuitDay fills in what a day at a circuit has, and gives its hidden cells.
func (b *book) circuitDay(s *sheet, cells []cell, l planner.Leg, n int, use *usage) (hidden []cell, burn float64) {
	u, box, in := b.u, look{box: true}, look{input: true}
	days, sessions := s.at(legDays, n, 1).in(s), s.at(legSessions, n, 0).in(s)
	minutes, lapTime := s.at(legMinutes, n, 0).in(s), s.at(legLapTime, n, 0).in(s)
	at := func(i int) string { return s.hiddenAt(i, n, 0).in(s) }
	each := tidy(l.SessionTime / 60)
	cells[legDays-1], cells[legSessions-1] = number(in, "0", 1), number(in, "0", float64(l.Sessions))
	cells[legMinutes-1] = number(in, "0", each)
	s.restrict(days, rule{most: 30, whole: true})
	s.restrict(sessions, rule{most: 50, whole: true})
	s.restrict(minutes, rule{most: 600})

	laps := float64(l.Laps)
	use.laps, use.minutes = s.at(legLaps, n, laps), s.hiddenAt(legMinutesAll, n, float64(l.Sessions)*each)
	cells[legLaps-1] = live(box, "0", fmt.Sprintf("%s*%s*MAX(0,INT(%s*60/(%s*86400)-2.6+0.000000001))", days, sessions, minutes, lapTime), laps)
	cells[legLapTime-1] = number(box, asLap, l.LapTime/86400)
	cells[9], cells[10] = number(box, asShare, l.Pace), number(box, asShare, l.LeftShare)
	if l.HeavyBrakings > 0 {
		cells[11] = number(box, "0", float64(l.HeavyBrakings))
	}
	distance := tidy(u.distance.of(l.Metres))
	round := over(distance, laps+2*float64(l.Sessions))
	cells[legDistance-1] = live(box, u.distance.format, fmt.Sprintf("(%s+2*%s*%s)*%s", use.laps.in(s), days, sessions, at(legRound)), distance)
	fuel := u.fuel.of(l.FuelUsed)
	burn = over(fuel, laps)
	cells[legFuel-1] = live(box, u.fuel.format, fmt.Sprintf("%s*%s", use.laps.in(s), at(legBurn)), fuel)
	for i, peak := range []float64{l.RotorPeak[0], l.RotorPeak[1], l.FluidPeak} {
		cells[17+i] = asPlanned(u.heat.in(box, peak))
	}
	changed := fmt.Sprintf("IF(OR(%s<>%s,%s<>%s,%s<>%s),1,0)", days, at(legPlanA), sessions, at(legPlanB), minutes, at(legPlanC))
	return []cell{
		live(look{}, "0", changed, 0), number(look{}, "0", 1), number(look{}, "0", float64(l.Sessions)), number(look{}, "0", each), number(look{}, "0.000", round),
	}, burn
}

// over divides, with nothing over nothing as nothing.
func over(a, b float64) float64 {
	if b == 0 || math.IsNaN(b) {
		return 0
	}
	return a / b
}
