package projection

import "slices"

// Scaled is a copy of the set, and of its replacement, with the losses of some
// legs multiplied; draws already made are shared with it.
func (s *Set) Scaled(group []int, scale float64) *Set {
	if s == nil {
		return nil
	}
	out := *s
	out.Levels = make([]Level, len(s.Levels))
	for i, p := range s.Levels {
		p.LegLoss, p.Loss = slices.Clone(p.LegLoss), slices.Clone(p.Loss)
		for _, j := range group {
			for k := range p.LegLoss[j] {
				p.LegLoss[j][k] *= scale
			}
			p.Loss[j] *= scale
		}
		out.Levels[i] = p
	}
	if out.Replacement = s.Replacement.Scaled(group, scale); out.Replacement != nil {
		out.Replacement.replaces = &out
	}
	return &out
}

// Redraw draws the set and its replacement anew, with as many draws as w has.
func (s *Set) Redraw(w *Worker) {
	for _, each := range []*Set{s, s.Replacement} {
		if each != nil {
			each.noise = nil
			w.noiseOf(each)
		}
	}
}
