package lists

import (
	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
)

// course is a point's nominal level before every leg and back home, as
// decided. What wears below nothing is gone.
func course(s plan.Set, p plan.Point) []float64 {
	out := make([]float64, 0, len(p.Loss)+1)
	level := p.Start
	if s.Decision.Action == plan.ReplaceBefore {
		level = p.New
	}
	for j, taken := range p.Loss {
		if s.Decision.Action == plan.Bring && s.Decision.Leg == j {
			level = p.New
		}
		out = append(out, max(0, level))
		level -= taken
		if s.Decision.Action == plan.ReplaceAtStop && s.Decision.Leg == j {
			level = p.New
		}
	}
	return append(out, max(0, level))
}

// closest is the point of a measure that comes nearest to its limit on the
// way, as decided, with its course.
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

// reads completes a check with what its point should show: at fuel stops
// before the roads that have them, before a session before the circuit days,
// and after a circuit day then, with what the next one wants of it.
func reads(c plan.Check, legs []plan.Leg, s plan.Set, p plan.Point, way []float64) plan.Check {
	c.Measure, c.Act, c.Stop = p.Measure, p.Margin, p.Limit
	for j, l := range legs {
		switch {
		case c.When == kind.Night && isCircuit(l):
			r := plan.Reading{Leg: j + 1, Level: way[j+1]}
			if j+1 < len(legs) && isCircuit(legs[j+1]) {
				r.Need = p.Margin + p.Loss[j+1]
			}
			c.Expect = append(c.Expect, r)
		case c.When == kind.Session && isCircuit(l), c.When == kind.Fuel && l.Kind == profiles.RoadLeg && l.Refuels > 0:
			c.Expect = append(c.Expect, plan.Reading{Leg: j, Level: way[j]})
		}
	}
	if c.When != kind.Night {
		c.Expect = append(c.Expect, plan.Reading{Leg: len(legs), Level: way[len(legs)]})
	}
	return c
}
