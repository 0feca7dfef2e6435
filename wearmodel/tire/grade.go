package tire

import "math"

const mile = 1609.344 // m

// The treadwear test of 49 CFR 575.104, from memory.
const (
	gradeStep   = 20
	gradeUnit   = 402   // mi per unit of P at a base wear rate of 1
	breakIn     = 800   // mi
	gradeDepth  = 0.062 // in, left at the projected end
	roundingEps = 1e-9  // so that unit conversion does not cost a grade
)

// Projected is the distance (m) that the treadwear test projects from the
// depth after break-in (m) and the wear rate (m of depth per m of road, above
// 0): 1000 (Yo-62)/Y + 800 in mils and miles. 49 CFR 575.104, from memory.
func Projected(depth, rate float64) float64 {
	return math.Max(0, depth-gradeDepth*inch)/rate + breakIn*mile
}

// Performance is the treadwear test's P: the projected distance (m) against a
// tire of grade 100, with the base course wear rate of the test (1.34 gives
// the older rule of 300 mi a point). 49 CFR 575.104, from memory.
func Performance(projected, baseRate float64) float64 {
	return projected / mile * baseRate / gradeUnit
}

// GradeOf is the treadwear grade for a performance P: P rounded down to a
// multiple of 20, 0 standing for the printed 00. 49 CFR 575.104.
func GradeOf(p float64) int {
	return gradeStep * int(math.Floor(math.Max(0, p)/gradeStep+roundingEps))
}
