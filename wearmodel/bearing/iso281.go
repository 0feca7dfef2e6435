package bearing

import (
	"math"
)

// L10 is the life (millions of revolutions) that nine of ten ball bearings of
// the given capacity reach under the given equivalent load, both in the same
// unit and above 0. ISO 281, basic rating life.
func L10(capacity, load float64) float64 {
	ratio := capacity / load
	return ratio * ratio * ratio // the exponent for ball bearings, 3
}

// Factors turn a radial and an axial load into an equivalent load (ISO 281,
// angular-contact ball bearings): X1, Y1 while axial over radial load is at
// most E, X2, Y2 above.
type Factors struct {
	E, X1, Y1, X2, Y2 float64
}

// The factors for a contact angle of 40 degrees, ISO 281: one row by itself,
// and two rows back to back taken as a unit.
var (
	SingleRow40 = Factors{E: 1.14, X1: 1, Y1: 0, X2: 0.35, Y2: 0.57}
	DoubleRow40 = Factors{E: 1.14, X1: 1, Y1: 0.55, X2: 0.57, Y2: 0.93}
)

// Equivalent is the load that would tire the bearing as fast as the radial
// and axial loads (not negative, one unit) do together.
func (f Factors) Equivalent(radial, axial float64) float64 {
	if axial <= f.E*radial {
		return float64(f.X1*radial) + float64(f.Y1*axial)
	}
	return float64(f.X2*radial) + float64(f.Y2*axial)
}

// rowCapacity is one row's share of the capacity of a two-row unit, ISO 281.
func rowCapacity(unit float64) float64 { return unit / math.Pow(2, 0.7) }
