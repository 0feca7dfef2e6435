package projection

import (
	"math"
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
)

// Decided is the way of every measured point of a set as decided.
func (w *Worker) Decided(s *Set) []plan.Course {
	on := s.Decision.NewFrom()
	var fresh bandsOfSet
	if on >= 0 {
		fresh = w.Project(s.Replacement, on)
	}
	var out []plan.Course
	for i := range s.Levels {
		p := &s.Levels[i]
		if !slices.ContainsFunc(s.Spec.Checks, func(c kind.Check) bool { return c.Reads == p.Measure }) {
			continue
		}
		c := plan.Course{Set: s.ID, Place: p.Place, Zone: p.Zone, Measure: p.Measure, Act: p.Margin, Stop: p.Limit, New: on}
		level := p.Start
		for j := 0; j <= len(p.Loss); j++ {
			if j == on {
				c.Old, level = math.Max(0, level), p.New
			}
			band, start := p.After, p.Start
			if on >= 0 && j >= on {
				band, start = fresh.Points[i], p.New
			}
			low, high := start-float64(ninety*p.Gauge), start+float64(ninety*p.Gauge)
			switch {
			case j == on:
				low, high = p.New, p.New
			case j > 0:
				low, high = band[j-1].P5, band[j-1].P95
			}
			c.Level, c.Low, c.High = append(c.Level, math.Max(0, level)), append(c.Low, math.Max(0, low)), append(c.High, math.Max(0, high))
			if j < len(p.Loss) {
				level -= p.Loss[j]
			}
		}
		out = append(out, c)
	}
	return out
}

// ninety is how many standard deviations either side hold nine cases in ten.
const ninety = 1.645
