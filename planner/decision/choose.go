package decision

import (
	"cmp"
	"math"
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/knapsack"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
)

// menu is the options of all sets, and what they share.
type menu struct {
	sets    []*projection.Set
	options [][]option
	visit   float64    // cost of a visit to a shop, shared by what is done there
	limit   [2]float64 // trunk: m3, kg
	shares  [][]int    // every way to share the shelf among the sets
}

// solution is a choice of one option a set.
type solution struct {
	knapsack.Result
	pick []int // by set; none where nothing can be chosen
}

// class is one or two sets that are chosen together, since their labor is
// shared where they are replaced at one site.
type class struct {
	sets  []int
	labor bool    // they share it
	picks [][]int // by option of the class, the option of each set
}

// solve finds the cheapest combination of options that are not excluded. Visits
// have a price once each, which the knapsack does not know: the selection of
// shops is a search of its own, by branch and bound.
func (m *menu) solve(limit [2]float64, excluded func(set int, op option) bool) solution {
	v := shopSearch{menu: m, limit: limit, excluded: excluded}
	v.best.Cost = math.Inf(1)
	v.branch(nil, nil)
	v.best.Bound = v.best.Cost // the tree is exhausted
	v.best.Nodes = v.nodes
	return v.best
}

// shopSearch is the search for the shops to visit.
type shopSearch struct {
	*menu
	limit    [2]float64
	excluded func(set int, op option) bool
	best     solution
	nodes    int
}

// branch looks at the combinations that visit every shop of one list and none
// of another. Were visits to the rest free, none would cost less than what
// relax finds; so a branch ends once the visits paid for outweigh what is left
// to save.
func (v *shopSearch) branch(paid, closed []int) {
	s := v.relax(closed)
	if s.Cost+float64(v.visit*float64(len(paid))) >= v.best.Cost {
		return
	}
	visited := v.visited(s.pick)
	real := s.Cost + float64(v.visit*float64(len(visited)))
	more := slices.DeleteFunc(visited, func(site int) bool { return slices.Contains(paid, site) })
	if real < v.best.Cost {
		v.best = s
		v.best.Cost = real
	}
	if len(more) == 0 {
		return
	}
	v.branch(paid, append(slices.Clip(closed), more[0]))
	v.branch(append(slices.Clip(paid), more[0]), closed)
}

// relax is the cheapest combination without the closed shops were visits free,
// over every way to share the shelf.
func (v *shopSearch) relax(closed []int) solution {
	best := solution{}
	best.Cost = math.Inf(1)
	for _, share := range v.shares {
		allowed := func(i int, op option) bool {
			return op.ruledOut == "" && op.Shelf <= share[i] && (v.excluded == nil || !v.excluded(i, op)) &&
				(!op.visits() || !slices.Contains(closed, op.site))
		}
		classes, table := v.classes(allowed)
		r := knapsack.Solve(table, v.limit)
		v.nodes += r.Nodes
		if r.Feasible && r.Cost < best.Cost {
			best = solution{r, v.picks(classes, r.Choice)}
		}
	}
	return best
}

// visits says whether an option is done in a shop.
func (op option) visits() bool { return op.site >= 0 || op.site == homeSite && op.Shop }

// visited lists the shops that a choice visits.
func (m *menu) visited(pick []int) []int {
	var out []int
	for i, k := range pick {
		if k == noOption {
			continue
		}
		if op := m.options[i][k]; op.visits() && !slices.Contains(out, op.site) {
			out = append(out, op.site)
		}
	}
	return out
}

// classes lays out the sets for the knapsack: an axle's pads and rotors
// together, every other set by itself.
func (m *menu) classes(allowed func(int, option) bool) ([]class, [][]knapsack.Option) {
	var classes []class
	var table [][]knapsack.Option
	done := make([]bool, len(m.sets))
	for i := range m.sets {
		if done[i] {
			continue
		}
		c := class{sets: []int{i}}
		if k := m.partner(i); k >= 0 {
			c.sets, c.labor, done[k] = append(c.sets, k), true, true
		} else if k := m.mate(i); k >= 0 {
			c.sets, done[k] = append(c.sets, k), true
		}
		table = append(table, m.combine(&c, allowed))
		classes = append(classes, c)
	}
	return classes, table
}

// partner is the set whose labor is shared, such as an axle's rotors for its
// pads; -1 where there is none.
func (m *menu) partner(i int) int {
	with := kind.Partner(m.sets[i].ID)
	return slices.IndexFunc(m.sets, func(s *projection.Set) bool { return s.ID == with })
}

// noActionCost is the price of leaving a set without any action that is safe and
// fits: more than anything else can cost, so that it happens only where it
// must.
const noActionCost = plan.NotTaken

// noOption stands for no action at all.
const noOption = -1

// combine lists the options of a class, no action at all among them.
func (m *menu) combine(c *class, allowed func(int, option) bool) []knapsack.Option {
	var out []knapsack.Option
	each := func(set int, yield func(k int, op option)) {
		for k, op := range m.options[set] {
			if allowed(set, op) {
				yield(k, op)
			}
		}
		unsafe := option{site: noSite}
		unsafe.Cost = noActionCost
		yield(noOption, unsafe)
	}
	each(c.sets[0], func(a int, x option) {
		if len(c.sets) == 1 && x.role == alone {
			c.picks = append(c.picks, []int{a})
			out = append(out, knapsack.Option{Cost: x.Cost, Size: x.size})
		}
		if len(c.sets) == 1 {
			return
		}
		each(c.sets[1], func(b int, y option) {
			if !together(x, y) {
				return
			}
			saved := 0.0
			if c.labor {
				saved = sharedLabor(x, y)
			}
			c.picks = append(c.picks, []int{a, b})
			out = append(out, knapsack.Option{
				Cost: x.Cost + y.Cost - saved,
				Size: [2]float64{x.size[0] + y.size[0], x.size[1] + y.size[1]},
			})
		})
	})
	return out
}

// sharedLabor is what two replacements on one axle at one site save: with the
// caliper off, the smaller job is done within the larger.
func sharedLabor(x, y option) float64 {
	if x.site == noSite || x.site != y.site {
		return 0
	}
	return min(x.Labor, y.Labor)
}

// picks turns a choice by class into one by set.
func (m *menu) picks(classes []class, choice []int) []int {
	out := make([]int, len(m.sets))
	for c, k := range choice {
		for n, s := range classes[c].sets {
			out[s] = classes[c].picks[k][n]
		}
	}
	return out
}

// chosen is a set's option in a solution; where nothing can be chosen, the one
// that comes nearest, with what keeps it from being chosen.
func (m *menu) chosen(s solution, i int) option {
	if s.pick[i] != noOption {
		return m.options[i][s.pick[i]]
	}
	return nearest(slices.DeleteFunc(slices.Clone(m.options[i]), func(op option) bool { return op.role != alone }))
}

// nearest is the option that comes nearest to one that can be chosen, as not to
// be taken.
func nearest(options []option) option {
	best := slices.MinFunc(options, func(a, b option) int {
		return cmp.Or(cmp.Compare(slices.Index(nearness, a.ruledOut), slices.Index(nearness, b.ruledOut)), cmp.Compare(a.PUnsafe, b.PUnsafe))
	})
	if best.ruledOut == "" {
		best.ruledOut = plan.BindRoom
	}
	best.Action, best.Leg, best.Spare, best.Shelf, best.Labor, best.Bind = plan.DoNotTake, -1, false, 0, 0, best.ruledOut
	return best
}

// nearness orders what rules options out: what could still be chosen were there
// room first, what time alone rules out next.
var nearness = []plan.Bind{"", plan.BindLate, plan.BindCap, plan.BindFound}

// leftOut compares a solution with the one that an endless trunk allows.
func (m *menu) leftOut(best solution) []plan.LeftOut {
	const endless = 1e9
	wide := m.solve([2]float64{endless, endless}, nil)
	var out []plan.LeftOut
	for i, s := range m.sets {
		want, got := m.chosen(wide, i), m.chosen(best, i)
		if want.size == [2]float64{} || want.Action == got.Action && want.Leg == got.Leg {
			continue
		}
		out = append(out, plan.LeftOut{Set: s.ID, Action: want.Action, Saving: got.Cost - want.Cost, Volume: want.size[0], Mass: want.size[1]})
	}
	return out
}
