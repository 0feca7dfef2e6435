package projection

import (
	"slices"

	"example.com/tripwear/planner/plan"
)

// Midway is a set before a leg of its trip: what the draws have of it by then.
type Midway struct {
	set     *Set
	leg     int
	sorted  [][]float64 // by point, the levels of the draws
	Nominal []float64   // by point
}

// Midway takes a set to a leg: as it leaves home where fitted is below 0,
// otherwise a new one of its parts, which goes on before the leg fitted.
func (w *Worker) Midway(s *Set, fitted, leg int) Midway {
	m := Midway{set: s.undrawn(), leg: leg}
	on := m.set
	if fitted >= 0 {
		on = m.set.Replacement
	}
	r := w.Start(on)
	for j := max(0, fitted); j < leg; j++ {
		r.Advance(j, fitted)
	}
	for i, p := range on.Levels {
		m.sorted = append(m.sorted, slices.Sorted(slices.Values(r.Level[i].Values)))
		level := p.Start
		for j := max(0, fitted); j < leg; j++ {
			level -= p.Loss[j]
		}
		m.Nominal = append(m.Nominal, max(0, level))
	}
	return m
}

// Chance is the share of the draws in which a point is under a level.
func (m Midway) Chance(point int, level float64) float64 {
	n, _ := slices.BinarySearch(m.sorted[point], level)
	return float64(n) / float64(len(m.sorted[point]))
}

// First is the point that is nearest to its limit once the leg is driven, nominal.
func (m Midway) First() int {
	first, least := 0, 0.0
	for i, p := range m.set.Levels {
		if left := (m.Nominal[i] - p.Loss[m.leg] - p.Limit) * p.lifeScale(); i == 0 || left < least {
			first, least = i, left
		}
	}
	return first
}

// AsRead is the set before that leg as if every point had just been read at so
// much less than its nominal level. What lies before takes nothing of it, nor do
// the legs that are left out.
func (m Midway) AsRead(less float64, out []int) *Set {
	idle := slices.Clone(out)
	for j := range m.leg {
		idle = append(idle, j)
	}
	s := m.set.Scaled(idle, 0).undrawn()
	for i := range s.Levels {
		s.Levels[i].read(m.Nominal[i] - less)
	}
	return s
}

// FitsBelow is the level at which a spare that is along goes on before a leg:
// the first check in the paddock there finds the margin, or expects it before the
// next one. 0 where there is no such check.
func (s *Set) FitsBelow(point, leg int, legs []plan.Leg) float64 {
	checks := slices.DeleteFunc(s.Checks(legs, true), func(c Check) bool { return !c.Paddock })
	first := slices.IndexFunc(checks, func(c Check) bool { return c.At >= float64(leg) })
	if first < 0 || checks[first].At >= float64(leg)+1 {
		return 0
	}
	next := float64(len(legs))
	if later := slices.IndexFunc(checks, func(c Check) bool { return c.At > checks[first].At }); later >= 0 {
		next = checks[later].At
	}
	return s.Levels[point].Margin + s.expected(point, checks[first].At, next)
}
