package tire

import "math"

// Scrub is the distance a wheel is dragged sideways per distance rolled
// (dimensionless, signed like toe) at a toe of that many rad. Trigonometry.
func Scrub(toe float64) float64 { return math.Sin(toe) }

// ToeAcross is the toe (rad) at which the front and the rear of one wheel,
// measured at the given diameter (m), stand difference (m) apart. Half an
// axle's total difference gives the toe of each of its wheels. Trigonometry;
// a difference beyond the diameter counts as the diameter.
func ToeAcross(difference, diameter float64) float64 {
	return math.Asin(math.Max(-1, math.Min(1, difference/diameter)))
}
