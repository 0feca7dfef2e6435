package tire

import (
	"math"
)

// Units of the published hydroplaning formulas.
const (
	psi = 6894.757293168 // Pa
	mph = 0.44704        // m/s
)

// Gallaway is the speed (m/s) at which a wheel spins down by the share
// spinDown (0.10 where hydroplaning begins) on a wet road, from the tire's
// pressure (Pa), its tread depth (m), the depth of water over the texture (m)
// and the road's mean texture depth (m). FHWA-RD-79-31, from memory, checked
// against a published example; fitted to tests at 18 to 36 psi with water to
// about a quarter inch. Tread depth matters weakly in it: WetStop shows what
// else is lost with the tread. With no water the wheel never spins down: the
// result is the formula's at a thousandth of an inch of it, never infinite.
func Gallaway(spinDown, pressure, tread, water, texture float64) float64 {
	const leastWater = 0.001 // in, assumed
	water = math.Pow(math.Max(leastWater, water/inch), 0.06)
	texture = math.Max(0, texture/inch)
	a := math.Max(10.409/water+3.507, (28.952/water-7.817)*math.Pow(texture, 0.14))
	wheel := math.Pow(100*math.Max(0, spinDown), 0.04) *
		math.Pow(math.Max(0, pressure/psi), 0.3) *
		math.Pow(math.Max(0, tread/inch*32)+1, 0.06)
	return wheel * a * mph
}

// Flooded is the speed (m/s) at which a tire of that pressure (Pa) planes on
// water deeper than its tread: 10.35 mph times the root of the psi. NASA TN
// D-2056, Horne and Dreher 1963.
func Flooded(pressure float64) float64 {
	return 10.35 * math.Sqrt(math.Max(0, pressure/psi)) * mph
}
