package season

import (
	"cmp"
	"math"
	"slices"

	"example.com/tripwear/planner/decision"
)

// path is what is done about a set, stretch by stretch.
type path struct {
	steps   []*decision.Step
	cost    float64
	least   float64 // with half of the labor that another set may share
	reduced float64 // least, with what its room and its visits are worth
	sites   []site  // shops visited
	packs   bool    // it takes room in a trunk
	shelf   int
}

// site is a shop on a stretch.
type site struct{ stretch, at int }

// search is of one set's paths.
type search struct {
	Ahead
	visits map[site]float64 // what it pays of a visit
	onward [][]float64      // by stretch and state, the least reduced cost from there on
}

// least is what a step costs at least beside another set's.
func (s *search) least(step *decision.Step) float64 {
	if s.Partner != "" && step.Site != decision.NoSite {
		return step.Cost - float64(step.Labor/2)
	}
	return step.Cost
}

// reduced is that, with what the step's room and visit are worth.
func (s *search) reduced(k int, step *decision.Step, room [][2]float64) float64 {
	out := s.least(step) + float64(room[k][0]*step.Size[0]) + float64(room[k][1]*step.Size[1])
	if step.Visits {
		out += s.visits[site{k, step.Site}]
	}
	return out
}

// back works out the least reduced cost from every state on, and gives that of
// the whole; steps that are not allowed are left out.
func (s *search) back(room [][2]float64, allowed func(*decision.Step) bool) float64 {
	last := len(s.states) - 1
	s.onward = make([][]float64, last+1)
	s.onward[last] = make([]float64, len(s.states[last]))
	for k := last - 1; k >= 0; k-- {
		s.onward[k] = make([]float64, len(s.states[k]))
		for i, at := range s.states[k] {
			best := math.Inf(1)
			for n := range at.steps {
				if step := &at.steps[n]; allowed == nil || allowed(step) {
					best = min(best, s.reduced(k, step, room)+s.onward[k+1][at.next[n]])
				}
			}
			s.onward[k][i] = best
		}
	}
	return s.onward[0][0]
}

// cheapest is the path of the least reduced cost.
func (s *search) cheapest(room [][2]float64) []*decision.Step {
	var out []*decision.Step
	on := 0
	for k := range room {
		at, best, pick := s.states[k][on], math.Inf(1), 0
		for n := range at.steps {
			if cost := s.reduced(k, &at.steps[n], room) + s.onward[k+1][at.next[n]]; cost < best {
				best, pick = cost, n
			}
		}
		out, on = append(out, &at.steps[pick]), at.next[pick]
	}
	return out
}

// within lists the set's paths whose reduced cost is within a gap of the least,
// without those that another beats, the cheapest first.
func (s *search) within(gap float64, room [][2]float64) []path {
	most := s.onward[0][0] + gap + 1e-9
	open := [][]path{{{}}}
	for k := range room {
		next := make([][]path, len(s.states[k+1]))
		for i, paths := range open {
			at := s.states[k][i]
			for n := range at.steps {
				step, to := &at.steps[n], at.next[n]
				reduced := s.reduced(k, step, room)
				for _, p := range paths {
					if p.reduced+reduced+s.onward[k+1][to] <= most && p.shelf+step.Shelf <= s.Shelf {
						next[to] = append(next[to], s.extend(p, k, step, reduced))
					}
				}
			}
		}
		for i := range next {
			next[i] = unbeaten(next[i])
		}
		open = next
	}
	return unbeaten(slices.Concat(open...))
}

// extend is a path with a step more.
func (s *search) extend(p path, k int, step *decision.Step, reduced float64) path {
	p.steps = append(slices.Clip(p.steps), step)
	p.cost, p.least, p.reduced, p.shelf = p.cost+step.Cost, p.least+s.least(step), p.reduced+reduced, p.shelf+step.Shelf
	p.packs = p.packs || step.Size != [2]float64{}
	if step.Visits {
		p.sites = append(slices.Clip(p.sites), site{k, step.Site})
	}
	return p
}

// unbeaten drops the paths that another beats, or matches, in all that counts.
// Of those that cost the same the one comes first that takes from the shelf first.
func unbeaten(paths []path) []path {
	slices.SortStableFunc(paths, func(a, b path) int {
		return cmp.Or(cmp.Compare(a.cost, b.cost), slices.CompareFunc(a.steps, b.steps, func(x, y *decision.Step) int {
			return cmp.Or(cmp.Compare(x.Action, y.Action), cmp.Compare(x.Leg, y.Leg), cmp.Compare(y.Shelf, x.Shelf))
		}))
	})
	var out []path
	for _, p := range paths {
		if !slices.ContainsFunc(out, func(q path) bool { return q.beats(p) }) {
			out = append(out, p)
		}
	}
	return out
}

// beats says whether a path could take the place of another anywhere.
func (a path) beats(b path) bool {
	if a.cost > b.cost-float64(2*(b.cost-b.least)) || a.shelf > b.shelf {
		return false
	}
	for _, x := range a.sites {
		if !slices.Contains(b.sites, x) {
			return false
		}
	}
	if a.packs {
		for k := range a.steps {
			if a.steps[k].Size[0] > b.steps[k].Size[0] || a.steps[k].Size[1] > b.steps[k].Size[1] {
				return false
			}
		}
	}
	return true
}

// waits is by stretch the cost of the set's best path of its own whose first
// replacement is there.
func (s *search) waits() []float64 {
	free := make([][2]float64, len(s.states)-1)
	own := search{Ahead: s.Ahead}
	own.Partner = ""
	own.back(free, nil)
	out, spent := make([]float64, len(free)), []float64{0} // by state, what it took to come there with the same part on
	for k := range out {
		out[k] = math.Inf(1)
		next := slices.Repeat([]float64{math.Inf(1)}, len(s.states[k+1]))
		for i, at := range s.states[k] {
			for n, step := range at.steps {
				to := at.next[n]
				if step.Replaces() {
					out[k] = min(out[k], spent[i]+step.Cost+own.onward[k+1][to])
				} else {
					next[to] = min(next[to], spent[i]+step.Cost)
				}
			}
		}
		spent = next
	}
	return out
}
