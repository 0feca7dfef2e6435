package oil

import (
	"math"
)

// Limits are an owner's two lines for a fill, and its age limit.
type Limits struct {
	Interval float64 // m of equivalent distance at which he likes to change
	Ceiling  float64 // m, never beyond: the maker's normal service, or what a report on used oil supports
	Months   float64 // age at which it goes whatever the distance
}

// Used is the share of the fill's life used towards the interval and towards
// the ceiling, after an equivalent distance (m) and some months; 1 is the
// line. Whichever of distance and age is further counts.
func (l Limits) Used(equivalent, months float64) (interval, ceiling float64) {
	age := share(months, l.Months)
	return math.Max(share(equivalent, l.Interval), age), math.Max(share(equivalent, l.Ceiling), age)
}

// share is used over limit; what has no limit is never used up.
func share(used, limit float64) float64 {
	if limit <= 0 {
		return 0
	}
	return math.Max(0, used) / limit
}
