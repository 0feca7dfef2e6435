package lists

import (
	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
)

// course is a point's nominal level before every leg and back home, as decided
// but for a spare. What wears below nothing is gone.
func course(s plan.Set, p plan.Point) []float64 {
	out := make([]float64, 0, len(p.Loss)+1)
	level := p.Start
	if s.Decision.Action == plan.ReplaceBefore {
		level = p.New
	}
	for j, taken := range p.Loss {
		out = append(out, max(0, level))
		level -= taken
		if s.Decision.Action == plan.ReplaceAtStop && s.Decision.Leg == j {
			level = p.New
		}
	}
	return append(out, max(0, level))
}

// mayBeOn is the chance from which a spare is told of beside the part that it
// is for; assumed.
const mayBeOn = 0.10

// spareCourse is what course is for a spare: from the leg on by which half of
// those that go on at all are on. 0 before it may well be on.
func spareCourse(s plan.Set, p plan.Point) []float64 {
	on := s.Decision.On
	out := make([]float64, len(p.Loss)+1)
	level := p.New
	for j := range on {
		if on[j] >= mayBeOn {
			out[j] = max(0, level)
		}
		if j < len(p.Loss) && on[j] >= s.Decision.PNeed/2 {
			level -= p.Loss[j]
		}
	}
	return out
}

// closest is the point of a measure that comes nearest to its limit on the
// way, with its course.
func closest(s plan.Set, m kind.Measure) (plan.Point, []float64) {
	var point plan.Point
	var way []float64
	least := 2.0
	for _, p := range s.Points {
		if p.Measure != m {
			continue
		}
		c := course(s, p)
		for _, level := range c {
			if left := (level - p.Limit) / (p.New - p.Limit); left < least {
				least, point, way = left, p, c
			}
		}
	}
	return point, way
}

// needed is what a circuit day needs of a point; 0 where it is not asked, or
// another point tells it.
func needed(days []plan.Need, p plan.Point, leg int) float64 {
	for _, n := range days {
		if n.Leg == leg && n.Place == p.Place && n.Zone == p.Zone {
			return n.Under
		}
	}
	return 0
}

// reads completes a check with what its point should show before each leg that
// it is made before or on, and back home. After a circuit day it says what the
// next one wants of it.
func reads(c plan.Check, legs []plan.Leg, s plan.Set, p plan.Point, way []float64) plan.Check {
	c.Measure, c.Place, c.Zone, c.Act, c.Stop = p.Measure, p.Place, p.Zone, p.Margin, p.Limit
	spare := spareCourse(s, p)
	for _, j := range c.Before {
		r := plan.Reading{Leg: j, Level: way[j], Spare: spare[j]}
		if c.When == kind.Night {
			r.Need = needed(s.Decision.Days, p, j)
		}
		c.Expect = append(c.Expect, r)
	}
	if c.When != kind.Night {
		c.Expect = append(c.Expect, plan.Reading{Leg: len(legs), Level: way[len(legs)], Spare: spare[len(legs)]})
	}
	return c
}
