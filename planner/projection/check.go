package projection

import (
	"cmp"
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
)

// Check is a check of a set on the way, with what it is worth.
type Check struct {
	At      float64 // legs driven by then: 1.4 is two fifths into the second
	Credit  float64 // share of the crossings it could show that it catches
	Paddock bool    // a spare can be fitted there
}

// Checks lists the checks that the checklist orders of the set and that can
// catch a crossing, in the order of the trip.
func (s *Set) Checks(legs []plan.Leg, watched bool) []Check {
	var out []Check
	for _, o := range plan.Checks(s.Spec, legs, s.On, watched) {
		credit := s.Spec.Credit(s.Credits, o.By)
		for _, m := range o.Moments {
			if credit > 0 {
				out = append(out, Check{float64(m.Leg) + m.At, credit, m.Paddock})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Check) int { return cmp.Compare(a.At, b.At) })
	return out
}

// Checked says whether any check of the set, watched, could catch a crossing.
func (s *Set) Checked() bool {
	return slices.ContainsFunc(s.Spec.Checks, func(c kind.Check) bool { return c.Of(true) && s.Spec.Credit(s.Credits, c.By) > 0 })
}

// crossing is when a part reaches its limit, in legs driven, and from when on a
// check could have shown it.
type crossing struct {
	leg        int // -1 where it does not
	passed, at float64
}

// credit is the share of a crossing that is caught: the most of the checks that
// lie after the margin was passed and before the limit is reached, not
// compounded. What is read before leaving is what the plan starts from, so it
// does not count. A part that fails without a margin shows nothing on the leg
// itself.
func (s *Set) credit(x crossing, checks []Check) float64 {
	most := 0.0
	from, _ := slices.BinarySearchFunc(checks, x.passed, func(c Check, at float64) int { return cmp.Compare(c.At, at) })
	for _, c := range checks[from:] {
		if c.At >= x.at || s.Lifetime && c.At > float64(x.leg) {
			break
		}
		if c.At > 0 {
			most = max(most, c.Credit)
		}
	}
	return most
}
