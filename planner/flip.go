package planner

import (
	"math"

	"example.com/tripwear/profiles"
)

const (
	flipDraws = 1000 // enough to find a turning point to a few percent
	flipMost  = 3.0  // how many times the planned usage is looked at
	flipSteps = 6    // halvings
)

// flip finds the usage at which a set's answer changes: of the circuit, or
// the road, that takes most of it. A fluid's margin does not follow usage, and
// where by itself the set would not do as was chosen for it, nothing is said.
func (c chooser) flip(w *worker, chosen Action) *Flip {
	most := c.set.Most
	if most < 0 || c.set.alone || len(c.set.Stop) > 0 {
		return nil
	}
	c.set = c.set.scaled(nil, 1)
	c.set.noise, c.set.fresh.noise = nil, nil // drawn anew, as many as w has
	w.noiseOf(c.set)
	w.noiseOf(c.set.fresh)
	group := c.group(most)
	planned := c.alike(w, group, 1)
	goes := planned == Run || planned == Watch
	if goes != (chosen == Run || chosen == Watch) {
		return nil
	}
	// Going on changes to something else with more usage; anything else
	// changes to going on with less.
	from, to := 1.0, flipMost
	if !goes {
		to = 0
	}
	other := c.alike(w, group, to)
	if (other == Run || other == Watch) == goes {
		return nil
	}
	for range flipSteps {
		mid := (from + to) / 2
		a := c.alike(w, group, mid)
		if (a == Run || a == Watch) == goes {
			from = mid
		} else {
			to, other = mid, a
		}
	}
	f := &Flip{Leg: group[0], Less: !goes, Action: other}
	for _, j := range group {
		f.Laps += c.way.legs[j].Laps
		if c.way.legs[j].Kind == profiles.RoadLeg {
			f.Metres += float64(c.way.legs[j].Metres * to)
		}
	}
	f.Laps = int(math.Round(float64(f.Laps) * to))
	return f
}

// group is the leg itself, or all days on its circuit.
func (c chooser) group(leg int) []int {
	l := c.way.legs[leg]
	if l.Kind != profiles.CircuitLeg {
		return []int{leg}
	}
	var out []int
	for j, other := range c.way.legs {
		if other.Circuit == l.Circuit && other.Kind == l.Kind {
			out = append(out, j)
		}
	}
	return out
}

// alike is the set's own best action with the usage of some legs scaled.
func (c chooser) alike(w *worker, group []int, scale float64) Action {
	s := c.set.scaled(group, scale)
	s.After = w.outcome(s, 0, true)
	best := option{Decision: Decision{Action: DoNotTake, Cost: math.Inf(1)}}
	for _, op := range newChooser(s, w, c.way, c.today).options() {
		if op.barred == "" && op.Cost < best.Cost {
			best = op
		}
	}
	return best.Action
}

// scaled is the set with the losses of some legs multiplied.
func (s *set) scaled(group []int, scale float64) *set {
	if s == nil {
		return nil
	}
	out := *s
	out.points = make([]point, len(s.points))
	for i, p := range s.points {
		p.legs = append([]loss(nil), p.legs...)
		for _, j := range group {
			for k := range p.legs[j] {
				p.legs[j][k] *= scale
			}
		}
		out.points[i] = p
	}
	if out.fresh = s.fresh.scaled(group, scale); out.fresh != nil {
		out.fresh.old = &out
	}
	return &out
}
