package season

import (
	"cmp"
	"math"
	"slices"

	"example.com/tripwear/planner/decision"
	"example.com/tripwear/planner/plan"
)

// Ahead is what lies before a set.
type Ahead struct {
	Set     string // id
	Part    string // id: sets of one part share the shelf
	Partner string // id of the set whose labor is shared; "" for none
	Shelf   int
	states  [][]state // by stretch, and after the last
}

// state is a part on the car before a stretch: what can be done then, the last
// thing being that the car is not taken, and to which state of the next stretch
// each leads. What it costs from there on hangs on the part alone.
type state struct {
	steps []decision.Step
	next  []int
}

// Lay works out all that can be done about the set on so many stretches.
func (a *Ahead) Lay(stretches int, steps func(stretch int, on decision.Part) []decision.Step) {
	open := []decision.Part{{}}
	for k := range stretches {
		var layer []state
		var next []decision.Part
		known := map[decision.Part]int{}
		for _, on := range open {
			s := state{steps: steps(k, on)}
			for _, step := range s.steps {
				to, ok := known[step.Next]
				if !ok {
					to, next = len(next), append(next, step.Next)
					known[step.Next] = to
				}
				s.next = append(s.next, to)
			}
			layer = append(layer, s)
		}
		a.states, open = append(a.states, layer), next
	}
	a.states = append(a.states, make([]state, len(open)))
}

// Season is what the sets share.
type Season struct {
	Sets  []Ahead
	Trunk [][2]float64 // by stretch: m3, kg
	Visit float64      // what a visit to a shop costs, once for all that is done there
}

// Choice is a path a set, with the proof that no other combination costs less.
type Choice struct {
	Paths [][]decision.Step // by set and stretch
	Cost  float64
	Bound float64 // no combination costs less; equal to Cost unless the search was given up
	Nodes int
	Waits [][]float64 // by set and stretch: cost of the set's own best path whose first replacement is there; +Inf where there is none
}

// mostNodes is when a search is given up: far more than a season takes.
const mostNodes = 3_000_000

// Choose finds the least expected cost.
//
// Room in a trunk has a price, and a visit to a shop is shared out among the
// sets: whatever the prices and shares, a combination costs at least L, the sum of
// what each set's cheapest path costs by itself with them, less what all the room
// is worth. (Lagrangian duality: the price of room that is not taken is not below
// 0, what is paid for a visit in all is no more than its price, and labor that
// two sets share saves at most half of each one's.) A path that costs a set more
// by g than its cheapest is in no combination of less than L + g. So where the
// best combination of the paths within g costs no more than L + g, none is better.
// Of the paths within g those are left out that another beats in all that sets
// share, since it could take their place in any combination.
func Choose(s Season) Choice {
	sets := make([]*search, len(s.Sets))
	for i, a := range s.Sets {
		sets[i] = &search{Ahead: a, visits: map[site]float64{}}
	}
	room, least := s.prices(sets)
	gap, nodes := 1.0, 0
	for {
		c := combination{Season: &s, sets: sets, worth: worth(room, s.Trunk), best: Choice{Cost: math.Inf(1), Nodes: nodes}}
		for _, one := range sets {
			c.paths = append(c.paths, one.within(gap, room))
		}
		c.solve()
		nodes = c.best.Nodes
		extra := c.best.Cost - least
		if extra <= gap+1e-9 || nodes > mostNodes && !math.IsInf(extra, 1) {
			if c.best.Bound = c.best.Cost; extra > gap+1e-9 {
				c.best.Bound = least
			}
			for _, one := range sets {
				c.best.Waits = append(c.best.Waits, one.waits())
			}
			return c.best
		}
		gap = min(extra, 4*gap)
	}
}

// InTurn is what it costs where each stretch is chosen by itself, from what the
// one before leaves, without a thought of those after it, and how often a set
// then keeps the car at home.
func InTurn(s Season) (sum float64, refused int) {
	on, shelf := make([]int, len(s.Sets)), make([]int, len(s.Sets))
	for k := range s.Trunk {
		alone := Season{Visit: s.Visit, Trunk: s.Trunk[k : k+1]}
		for i, a := range s.Sets {
			now := a.states[k][on[i]]
			a.states = [][]state{{{now.steps, make([]int, len(now.steps))}}, {{}}}
			for j, b := range s.Sets {
				if b.Part == a.Part {
					a.Shelf -= shelf[j]
				}
			}
			alone.Sets = append(alone.Sets, a)
		}
		c := Choose(alone)
		sum += c.Cost
		for i, path := range c.Paths {
			from := s.Sets[i].states[k][on[i]]
			n := slices.IndexFunc(from.steps, func(step decision.Step) bool { return step.Next == path[0].Next })
			on[i], shelf[i] = from.next[n], shelf[i]+path[0].Shelf
			if path[0].Action == plan.DoNotTake {
				refused++
			}
		}
	}
	return sum - float64(plan.NotTaken*float64(refused)), refused
}

// path is what is done about a set, stretch by stretch.
type path struct {
	steps   []decision.Step
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

// prices finds prices of room, and shares of visits, that give a high bound: by
// subgradient steps, and by sharing a visit evenly among those that make it.
func (s *Season) prices(sets []*search) (room [][2]float64, least float64) {
	const steps = 100
	now := make([][2]float64, len(s.Trunk))
	spread, scale := 0.0, [2]float64{}
	for _, one := range sets {
		bare := one.back(now, func(step *decision.Step) bool { return step.Size == [2]float64{} })
		if dear := bare - one.back(now, nil); dear < plan.NotTaken/2 {
			spread = max(spread, dear)
		}
		for _, layer := range one.states {
			for _, at := range layer {
				for n := range at.steps {
					scale[0], scale[1] = max(scale[0], at.steps[n].Size[0]), max(scale[1], at.steps[n].Size[1])
				}
			}
		}
	}
	least = math.Inf(-1)
	best := make([]map[site]float64, len(sets))
	for n := range steps {
		total := -worth(now, s.Trunk)
		taken, visitors := make([][2]float64, len(now)), map[site][]int{}
		for i, one := range sets {
			total += one.back(now, nil)
			for k, step := range one.cheapest(now) {
				taken[k][0], taken[k][1] = taken[k][0]+step.Size[0], taken[k][1]+step.Size[1]
				if step.Visits {
					visitors[site{k, step.Site}] = append(visitors[site{k, step.Site}], i)
				}
			}
		}
		if total > least {
			least, room = total, slices.Clone(now)
			for i, one := range sets {
				best[i] = copied(one.visits)
			}
		}
		for k := range now {
			for d := range scale {
				if scale[d] > 0 {
					over := (taken[k][d] - s.Trunk[k][d]) / scale[d]
					now[k][d] = max(0, now[k][d]+float64(spread/scale[d]/float64(2+n)*max(-1, min(1, over))))
				}
			}
		}
		s.share(sets, visitors, 1/float64(1+n))
	}
	for i, one := range sets {
		one.visits = best[i]
		one.back(room, nil)
	}
	return room, least
}

func copied(m map[site]float64) map[site]float64 {
	out := make(map[site]float64, len(m))
	for k, v := range m {
		out[k] = v
	}
	return out
}

// share moves what the sets pay of each visit toward even shares.
func (s *Season) share(sets []*search, visitors map[site][]int, by float64) {
	for at, who := range visitors {
		for i, one := range sets {
			fair := 0.0
			if slices.Contains(who, i) {
				fair = s.Visit / float64(len(who))
			}
			one.visits[at] += float64(by * (fair - one.visits[at]))
		}
	}
}

// worth of all the room there is.
func worth(room, trunk [][2]float64) float64 {
	sum := 0.0
	for k, r := range room {
		sum += float64(r[0]*trunk[k][0]) + float64(r[1]*trunk[k][1])
	}
	return sum
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
	p.steps = append(slices.Clip(p.steps), *step)
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
		return cmp.Or(cmp.Compare(a.cost, b.cost), slices.CompareFunc(a.steps, b.steps, func(x, y decision.Step) int {
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
	out, spent, on := make([]float64, len(free)), 0.0, 0
	for k := range out {
		out[k] = math.Inf(1)
		goes, next, at := math.Inf(1), 0, s.states[k][on]
		for n, step := range at.steps {
			switch step.Action {
			case plan.ReplaceBefore, plan.ReplaceAtStop:
				out[k] = min(out[k], spent+step.Cost+own.onward[k+1][at.next[n]])
			case plan.Run, plan.Watch:
				goes, next = step.Cost, at.next[n]
			case plan.Bring, plan.DoNotTake:
			}
		}
		spent, on = spent+goes, next
	}
	return out
}

// combination is the search for the best combination of paths, by branch and
// bound.
type combination struct {
	*Season
	sets   []*search
	worth  float64  // of all the room
	paths  [][]path // by set
	order  []int
	onward []float64 // from a depth on, the least reduced cost of all sets together
	chosen []*path   // by set; nil where none is yet
	best   Choice
}

// solve finds it.
func (c *combination) solve() {
	for i, paths := range c.paths {
		if len(paths) == 0 {
			return
		}
		slices.SortStableFunc(paths, func(a, b path) int { return cmp.Compare(a.reduced, b.reduced) })
		c.order = append(c.order, i)
	}
	slices.SortStableFunc(c.order, func(a, b int) int { return cmp.Compare(len(c.paths[b]), len(c.paths[a])) })
	c.onward = make([]float64, len(c.order)+1)
	for d := len(c.order) - 1; d >= 0; d-- {
		c.onward[d] = c.onward[d+1] + c.paths[c.order[d]][0].reduced
	}
	c.chosen = make([]*path, len(c.paths))
	c.descend(0, 0, -c.worth, nil)
}

// descend tries the paths of the set at a depth.
func (c *combination) descend(depth int, cost, reduced float64, visited []site) {
	if c.best.Nodes++; c.best.Nodes > mostNodes && !math.IsInf(c.best.Cost, 1) {
		return
	}
	if depth == len(c.order) {
		if cost < c.best.Cost {
			c.best.Cost, c.best.Paths = cost, nil
			for _, p := range c.chosen {
				c.best.Paths = append(c.best.Paths, p.steps)
			}
		}
		return
	}
	i := c.order[depth]
	for k := range c.paths[i] {
		p := &c.paths[i][k]
		if reduced+p.reduced+c.onward[depth+1] >= c.best.Cost {
			return // and so do those after it
		}
		if !c.fits(i, p) {
			continue
		}
		spent, sites := cost+p.cost-c.sharedLabor(i, p), slices.Clip(visited)
		for _, x := range p.sites {
			if !slices.Contains(sites, x) {
				sites = append(sites, x)
				spent += c.Visit
			}
		}
		c.chosen[i] = p
		c.descend(depth+1, spent, reduced+p.reduced, sites)
		c.chosen[i] = nil
	}
}

// sharedLabor is what a path saves beside that of the set's partner, where that
// is chosen.
func (c *combination) sharedLabor(i int, p *path) float64 {
	sum := 0.0
	for j, other := range c.chosen {
		if other == nil || c.Sets[j].Set != c.Sets[i].Partner {
			continue
		}
		for k := range p.steps {
			sum += decision.SharedLabor(p.steps[k], other.steps[k])
		}
	}
	return sum
}

// fits says whether a path has room in every trunk and on the shelf beside those
// chosen.
func (c *combination) fits(i int, p *path) bool {
	shelf := p.shelf
	for j, other := range c.chosen {
		if other != nil && c.Sets[j].Part == c.Sets[i].Part {
			shelf += other.shelf
		}
	}
	if shelf > c.Sets[i].Shelf {
		return false
	}
	if !p.packs {
		return true
	}
	const slack = 1e-9
	for k, limit := range c.Trunk {
		used := p.steps[k].Size
		if used == [2]float64{} {
			continue
		}
		for _, other := range c.chosen {
			if other != nil {
				used[0], used[1] = used[0]+other.steps[k].Size[0], used[1]+other.steps[k].Size[1]
			}
		}
		if used[0] > limit[0]+slack || used[1] > limit[1]+slack {
			return false
		}
	}
	return true
}
