package season

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"example.com/tripwear/planner/decision"
	"example.com/tripwear/planner/plan"
)

// Ahead is what lies before a set: what can be done about it on a stretch with a
// part on the car, the last being that the car is not taken. What it costs from
// there on hangs on the part alone.
type Ahead struct {
	Set     string // id
	Part    string // id: sets of one part share the shelf
	Partner string // id of the set whose labor is shared; "" for none
	Shelf   int
	Steps   func(stretch int, on decision.Part) []decision.Step
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
	Bound float64 // no combination costs less; equal to Cost
	Nodes int
	Waits [][]float64 // by set and stretch: cost of the set's own best path whose first replacement is there; +Inf where there is none
}

// Prepare works out every step that can be needed, so that the choice itself
// waits for nothing.
func (a *Ahead) Prepare(stretches int) {
	steps, known := a.Steps, map[at][]decision.Step{}
	a.Steps = func(stretch int, on decision.Part) []decision.Step {
		key := at{stretch, on}
		out, ok := known[key]
		if !ok {
			out = steps(stretch, on)
			known[key] = out
		}
		return out
	}
	open := []decision.Part{{}}
	for k := range stretches {
		next := map[decision.Part]bool{}
		for _, on := range open {
			for _, step := range a.Steps(k, on) {
				next[step.Next] = true
			}
		}
		open = slices.Collect(maps.Keys(next))
	}
}

// InTurn is what it costs where each stretch is chosen by itself, from what the
// one before leaves, without a thought of those after it, and how often a set
// then keeps the car at home.
func InTurn(s Season) (sum float64, refused int) {
	on, shelf := make([]decision.Part, len(s.Sets)), make([]int, len(s.Sets))
	for k := range s.Trunk {
		alone := Season{Visit: s.Visit, Trunk: s.Trunk[k : k+1]}
		for i, a := range s.Sets {
			steps, now := a.Steps, on[i]
			a.Steps = func(int, decision.Part) []decision.Step { return steps(k, now) }
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
			on[i], shelf[i] = path[0].Next, shelf[i]+path[0].Shelf
			if path[0].Action == plan.DoNotTake {
				refused++
			}
		}
	}
	return sum - float64(plan.NotTaken*float64(refused)), refused
}

// path is what is done about a set, stretch by stretch.
type path struct {
	steps []decision.Step
	cost  float64
	least float64 // were the labor free that another set may share
	sites []site  // shops visited
	packs bool    // it takes room in a trunk
	shelf int
}

// site is a shop on a stretch.
type site struct{ stretch, at int }

// Choose finds the least expected cost.
//
// Let m(i) be the least that set i can cost by itself, with visits and shared
// labor free and room for all. A combination that gives set i a path of cost
// above m(i) + g costs more than L + g, where L is the sum of all m. So where the
// best combination of the paths within g costs no more than L + g, none is
// better. Of the paths within g those are left out that another beats in all that
// sets share, since it could take their place in any combination.
func Choose(s Season) Choice {
	sets := make([]*search, len(s.Sets))
	least, gap := 0.0, 0.0
	for i, a := range s.Sets {
		sets[i] = &search{Ahead: a, season: &s, rest: map[at]float64{}}
		least += sets[i].onward(at{})
	}
	for {
		c := combination{Season: &s, best: Choice{Cost: math.Inf(1)}}
		for _, one := range sets {
			c.paths = append(c.paths, one.within(gap))
		}
		c.solve()
		switch extra := c.best.Cost - least; {
		case extra <= gap+1e-9:
			c.best.Bound = c.best.Cost
			for _, one := range sets {
				c.best.Waits = append(c.best.Waits, one.waits())
			}
			return c.best
		case math.IsInf(extra, 1):
			gap = 4*gap + 50
		default:
			gap = extra
		}
	}
}

// at is a part on the car before a stretch.
type at struct {
	stretch int
	on      decision.Part
}

// search is of one set's paths.
type search struct {
	Ahead
	season *Season
	rest   map[at]float64
}

// least is what a step costs were its labor free where another set may share it.
func (s *search) least(step decision.Step) float64 {
	if s.Partner != "" && step.Site != decision.NoSite {
		return step.Cost - step.Labor
	}
	return step.Cost
}

// onward is the least that the set costs from a state on.
func (s *search) onward(a at) float64 {
	if a.stretch == len(s.season.Trunk) {
		return 0
	}
	if best, known := s.rest[a]; known {
		return best
	}
	best := math.Inf(1)
	for _, step := range s.Steps(a.stretch, a.on) {
		best = min(best, s.least(step)+s.onward(at{a.stretch + 1, step.Next}))
	}
	s.rest[a] = best
	return best
}

// within lists the set's paths whose cost is within a gap of the least, without
// those that another beats, the cheapest first.
func (s *search) within(gap float64) []path {
	most := s.onward(at{}) + gap + 1e-9
	open := map[decision.Part][]path{{}: {{}}}
	for k := range s.season.Trunk {
		next := map[decision.Part][]path{}
		for on, paths := range open {
			for _, step := range s.Steps(k, on) {
				onward := s.onward(at{k + 1, step.Next})
				for _, p := range paths {
					if p.least+s.least(step)+onward > most || p.shelf+step.Shelf > s.Shelf {
						continue
					}
					next[step.Next] = append(next[step.Next], s.extend(p, k, step))
				}
			}
		}
		for on, paths := range next {
			next[on] = s.unbeaten(paths)
		}
		open = next
	}
	var out []path
	for _, paths := range open {
		out = append(out, paths...)
	}
	return s.unbeaten(out)
}

// extend is a path with a step more.
func (s *search) extend(p path, k int, step decision.Step) path {
	p.steps = append(slices.Clip(p.steps), step)
	p.cost, p.least, p.shelf = p.cost+step.Cost, p.least+s.least(step), p.shelf+step.Shelf
	p.packs = p.packs || step.Size != [2]float64{}
	if step.Visits {
		p.sites = append(slices.Clip(p.sites), site{k, step.Site})
	}
	return p
}

// unbeaten drops the paths that another beats, or matches, in all that counts.
func (s *search) unbeaten(paths []path) []path {
	slices.SortFunc(paths, func(a, b path) int {
		return cmp.Or(cmp.Compare(a.cost, b.cost), slices.CompareFunc(a.steps, b.steps, func(x, y decision.Step) int {
			return cmp.Or(cmp.Compare(x.Action, y.Action), cmp.Compare(x.Leg, y.Leg), cmp.Compare(y.Shelf, x.Shelf)) // what lies on the shelf goes first
		}))
	})
	var out []path
	for _, p := range paths {
		if !slices.ContainsFunc(out, func(q path) bool { return s.beats(q, p) }) {
			out = append(out, p)
		}
	}
	return out
}

// beats says whether one path could take the place of another anywhere.
func (s *search) beats(a, b path) bool {
	if a.cost > b.least || a.shelf > b.shelf {
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
	out, spent, on := make([]float64, len(s.season.Trunk)), 0.0, decision.Part{}
	for k := range out {
		out[k] = math.Inf(1)
		goes := math.Inf(1)
		for _, step := range s.Steps(k, on) {
			switch step.Action {
			case plan.ReplaceBefore, plan.ReplaceAtStop:
				out[k] = min(out[k], spent+step.Cost+s.onward(at{k + 1, step.Next}))
			case plan.Run, plan.Watch:
				goes = step.Cost
			case plan.Bring, plan.DoNotTake:
			}
		}
		spent += goes
	}
	return out
}

// combination is the search for the best combination of paths, by branch and
// bound.
type combination struct {
	*Season
	paths  [][]path // by set
	order  []int
	onward []float64 // from a depth on, the least of all sets together
	chosen []*path   // by set; nil where none is yet
	best   Choice
}

// solve finds it.
func (c *combination) solve() {
	for i, paths := range c.paths {
		if len(paths) == 0 {
			return
		}
		c.order = append(c.order, i)
	}
	slices.SortStableFunc(c.order, func(a, b int) int { return cmp.Compare(len(c.paths[b]), len(c.paths[a])) })
	c.onward = make([]float64, len(c.order)+1)
	for d := len(c.order) - 1; d >= 0; d-- {
		least := math.Inf(1)
		for _, p := range c.paths[c.order[d]] {
			least = min(least, p.least)
		}
		c.onward[d] = c.onward[d+1] + least
	}
	c.chosen = make([]*path, len(c.paths))
	c.descend(0, 0, nil)
}

// descend tries the paths of the set at a depth.
func (c *combination) descend(depth int, cost float64, visited []site) {
	c.best.Nodes++
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
		spent, sites := cost+p.cost-c.sharedLabor(i, p), slices.Clip(visited)
		for _, x := range p.sites {
			if !slices.Contains(sites, x) {
				sites = append(sites, x)
				spent += c.Visit
			}
		}
		if spent+c.onward[depth+1] >= c.best.Cost || !c.fits(i, p) {
			continue
		}
		c.chosen[i] = p
		c.descend(depth+1, spent, sites)
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
