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
	labor   float64   // of it that another set may share
	priced  float64   // cost with what it takes and its visits are worth
	reduced float64   // priced without the labor credited
	best    float64   // priced with the partner's path that goes best with it, where that is chosen after it
	sites   []site    // shops visited
	used    []float64 // of each row; nil where nothing is
}

// site is a shop on a stretch.
type site struct{ stretch, at int }

// search is of one set's paths.
type search struct {
	Ahead
	visits map[site]float64 // what it pays of a visit
	credit map[site]float64 // how much more than half of its labor counts as saved beside its partner
	mate   int              // that partner's number; -1 without one
	give   int              // with so many paths in a state it is given up; 0 for never
	onward [][]float64      // by stretch and state, the least reduced cost from there on
}

// shared is the labor of a step that the set's partner may save.
func (s *search) shared(step *decision.Step) float64 {
	if s.mate < 0 || step.Site == decision.NoSite {
		return 0
	}
	return step.Labor
}

// credited is the share of that which counts as saved.
func (s *search) credited(k int, step *decision.Step) float64 {
	if labor := s.shared(step); labor > 0 {
		return (0.5 + s.credit[site{k, step.Site}]) * labor
	}
	return 0
}

// reduced is what a step of a state costs with what it takes and its visit, and
// without the labor credited.
func (s *search) reduced(k int, at *state, n int, price []float64) float64 {
	step := &at.steps[n]
	out := step.Cost - s.credited(k, step)
	for _, u := range at.uses[n] {
		out += float64(price[u.row] * u.amount)
	}
	if step.Visits {
		out += s.visits[site{k, step.Site}]
	}
	return out
}

// back works out the least reduced cost from every state on, and gives that of
// the whole; bare, of steps that take nothing which is short.
func (s *search) back(price []float64, bare bool) float64 {
	last := len(s.states) - 1
	s.onward = make([][]float64, last+1)
	s.onward[last] = make([]float64, len(s.states[last]))
	for k := last - 1; k >= 0; k-- {
		s.onward[k] = make([]float64, len(s.states[k]))
		for i := range s.states[k] {
			at, best := &s.states[k][i], math.Inf(1)
			for n := range at.steps {
				if !bare || len(at.uses[n]) == 0 {
					best = min(best, s.reduced(k, at, n, price)+s.onward[k+1][at.next[n]])
				}
			}
			s.onward[k][i] = best
		}
	}
	return s.onward[0][0]
}

// cheapest goes along the path of the least reduced cost.
func (s *search) cheapest(price []float64, each func(k int, at *state, n int)) {
	on := 0
	for k := range len(s.states) - 1 {
		at, best, pick := &s.states[k][on], math.Inf(1), 0
		for n := range at.steps {
			if cost := s.reduced(k, at, n, price) + s.onward[k+1][at.next[n]]; cost < best {
				best, pick = cost, n
			}
		}
		each(k, at, pick)
		on = at.next[pick]
	}
}

// within lists the set's paths whose reduced cost is within a gap of the least,
// without those that another beats, the cheapest first; not ok where they are too
// many.
func (s *search) within(gap float64, price []float64) (paths []path, ok bool) {
	most := s.onward[0][0] + gap + 1e-9
	open := [][]path{{{}}}
	for k := range len(s.states) - 1 {
		next := make([][]path, len(s.states[k+1]))
		for i, paths := range open {
			if len(paths) == 0 {
				continue
			}
			at := &s.states[k][i]
			for n := range at.steps {
				to, reduced := at.next[n], s.reduced(k, at, n, price)
				for _, p := range paths {
					if p.reduced+reduced+s.onward[k+1][to] <= most {
						next[to] = append(next[to], s.extend(p, k, at, n, reduced, len(price)))
					}
				}
			}
		}
		for i := range next {
			if next[i] = unbeaten(next[i]); s.give > 0 && len(next[i]) > s.give {
				return nil, false
			}
		}
		open = next
	}
	return unbeaten(slices.Concat(open...)), true
}

// extend is a path with a step more.
func (s *search) extend(p path, k int, at *state, n int, reduced float64, rows int) path {
	step := &at.steps[n]
	p.steps = append(slices.Clip(p.steps), step)
	p.cost, p.labor, p.reduced = p.cost+step.Cost, p.labor+s.shared(step), p.reduced+reduced
	p.priced += reduced + s.credited(k, step)
	if uses := at.uses[n]; len(uses) > 0 {
		p.used = append(make([]float64, 0, rows), p.used...)[:rows]
		for _, u := range uses {
			p.used[u.row] += u.amount
		}
	}
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
	if a.cost > b.cost-b.labor {
		return false
	}
	for _, x := range a.sites {
		if !slices.Contains(b.sites, x) {
			return false
		}
	}
	for row, used := range a.used {
		if used > 0 && (b.used == nil || used > b.used[row]) {
			return false
		}
	}
	return true
}

// waits is by stretch the cost of the set's best path of its own whose first
// replacement is there.
func (s *search) waits(rows int) []float64 {
	own := search{Ahead: s.Ahead, mate: -1}
	own.back(make([]float64, rows), false)
	out, spent := make([]float64, len(s.states)-1), []float64{0} // by state, what it took to come there with the same part on
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
