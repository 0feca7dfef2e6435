package projection

import (
	"math"
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
)

// Decided is the way of every measured point of a set as decided. A spare counts
// as on from the leg before which it goes on at the latest, or by which half of
// the draws have it on.
func (w *Worker) Decided(s *Set) []plan.Course {
	on := s.newFrom()
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

// newFrom is the leg before which a new part is on as decided; -1 where none is.
func (s *Set) newFrom() int {
	switch d := s.Decision; d.Action {
	case plan.ReplaceBefore:
		return 0
	case plan.ReplaceAtStop:
		return d.Leg + 1
	case plan.Bring:
		if d.Leg >= 0 {
			return d.Leg
		}
		for j, share := range d.On {
			if share >= 0.5 {
				return j
			}
		}
	case plan.Run, plan.Watch, plan.DoNotTake:
	}
	return -1
}
