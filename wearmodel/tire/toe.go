package tire

import (
	"math"
)

// Scrub is the distance a wheel is dragged sideways per distance rolled
// (dimensionless, signed like toe) at a toe of that many rad. Trigonometry.
func Scrub(toe float64) float64 { return math.Sin(toe) }
