package projection

import (
	"example.com/tripwear/planner/trip"
)

// Scaled is the set with the losses of some legs multiplied.
func (s *Set) Scaled(group []int, scale float64) *Set {
	if s == nil {
		return nil
	}
	out := *s
	out.Levels = make([]Level, len(s.Levels))
	for i, p := range s.Levels {
		p.Legs = append([]trip.Loss(nil), p.Legs...)
		for _, j := range group {
			for k := range p.Legs[j] {
				p.Legs[j][k] *= scale
			}
		}
		out.Levels[i] = p
	}
	if out.Fresh = s.Fresh.Scaled(group, scale); out.Fresh != nil {
		out.Fresh.old = &out
	}
	return &out
}
