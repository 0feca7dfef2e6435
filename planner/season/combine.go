package season

import (
	"cmp"
	"math"
	"slices"

	"example.com/tripwear/planner/decision"
)

// combination is the search for the best combination of paths, by branch and
// bound. Sets that share labor are chosen one after the other.
type combination struct {
	*Season
	sets   []*search
	limits []float64
	worth  float64  // of them all
	paths  [][]path // by set
	order  []int
	onward []float64 // from a depth on, where no pair is begun, the least that all further sets come to
	chosen []*path   // by set; nil where none is yet
	best   Choice
	nodes  int         // when the search is given up
	spared [][]float64 // from a depth on, by row, the least that all further sets take
}

// solve finds it.
func (c *combination) solve() {
	for _, paths := range c.paths {
		if len(paths) == 0 {
			return
		}
	}
	c.arrange()
	c.onward = make([]float64, len(c.order)+1)
	for d := len(c.order) - 1; d >= 0; d-- {
		c.onward[d] = c.onward[d+1]
		if !c.second(d) {
			c.onward[d] += c.paths[c.order[d]][0].best
		}
	}
	c.spared = make([][]float64, len(c.order)+1)
	c.spared[len(c.order)] = make([]float64, len(c.limits))
	for d := len(c.order) - 1; d >= 0; d-- {
		c.spared[d] = slices.Clone(c.spared[d+1])
		for row := range c.limits {
			c.spared[d][row] += leastUse(c.paths[c.order[d]], row)
		}
	}
	c.chosen = make([]*path, len(c.paths))
	c.descend(0, 0, -c.worth, nil)
}

// leastUse is what even the most frugal of a set's paths takes of a row.
func leastUse(paths []path, row int) float64 {
	least := math.Inf(1)
	for _, p := range paths {
		if p.used == nil {
			return 0
		}
		least = min(least, p.used[row])
	}
	return least
}

// arrange puts the sets in order, those with most paths first and each with its
// partner, and the paths of each, those first that may turn out best.
func (c *combination) arrange() {
	many := make([]int, len(c.sets))
	for i := range many {
		many[i] = i
	}
	slices.SortStableFunc(many, func(a, b int) int { return cmp.Compare(len(c.paths[b]), len(c.paths[a])) })
	for _, i := range many {
		if slices.Contains(c.order, i) {
			continue
		}
		c.order = append(c.order, i)
		mate := c.sets[i].mate
		for k := range c.paths[i] {
			p := &c.paths[i][k]
			if p.best = p.priced; mate >= 0 {
				p.best += c.along(p, c.paths[mate])
			}
		}
		if mate >= 0 {
			c.order = append(c.order, mate)
			slices.SortStableFunc(c.paths[mate], func(a, b path) int { return cmp.Compare(a.priced-a.labor, b.priced-b.labor) })
		}
		slices.SortStableFunc(c.paths[i], func(a, b path) int { return cmp.Compare(a.best, b.best) })
	}
}

// along is the least that a partner's path comes to beside one.
func (c *combination) along(p *path, paths []path) float64 {
	least := math.Inf(1)
	for k := range paths {
		if q := &paths[k]; q.priced-min(p.labor, q.labor) < least {
			least = min(least, q.priced-saved(p, q))
		}
	}
	return least
}

// second says whether the set at a depth is the second of a pair.
func (c *combination) second(depth int) bool {
	return depth > 0 && c.sets[c.order[depth]].mate == c.order[depth-1]
}

// descend tries the paths of the set at a depth.
func (c *combination) descend(depth int, cost, bound float64, visited []site) {
	if c.best.Nodes++; c.best.Nodes > c.nodes && !math.IsInf(c.best.Cost, 1) {
		return
	}
	if depth == len(c.order) {
		if cost < c.best.Cost {
			c.best.Cost, c.best.Paths = cost, nil
			for _, p := range c.chosen {
				steps := make([]decision.Step, len(p.steps))
				for k, step := range p.steps {
					steps[k] = *step
				}
				c.best.Paths = append(c.best.Paths, steps)
			}
		}
		return
	}
	i, second := c.order[depth], c.second(depth)
	rest := c.onward[depth+1]
	for k := range c.paths[i] {
		p := &c.paths[i][k]
		least, off := p.best, 0.0
		if second {
			least = p.priced - p.labor
		}
		if bound+least+rest >= c.best.Cost {
			return // and so do those after it
		}
		if second {
			off = saved(p, c.chosen[c.order[depth-1]])
			if bound+p.priced-off+rest >= c.best.Cost {
				continue
			}
		}
		if !c.fits(p, depth) {
			continue
		}
		spent, sites := cost+p.cost-off, slices.Clip(visited)
		for _, x := range p.sites {
			if !slices.Contains(sites, x) {
				sites = append(sites, x)
				spent += c.Visit
			}
		}
		c.chosen[i] = p
		c.descend(depth+1, spent, bound+p.priced-off, sites)
		c.chosen[i] = nil
	}
}

// saved is what two paths of partners save in labor.
func saved(p, q *path) float64 {
	sum := 0.0
	for k := range p.steps {
		sum += decision.SharedLabor(p.steps[k], q.steps[k])
	}
	return sum
}

// fits says whether there is room, money and enough on the shelf for a path of the
// set at a depth beside those chosen, and for those of the sets after it.
func (c *combination) fits(p *path, depth int) bool {
	const slack = 1e-9
	for row, used := range p.used {
		if used == 0 {
			continue
		}
		for _, other := range c.chosen {
			if other != nil && other.used != nil {
				used += other.used[row]
			}
		}
		if used+c.spared[depth+1][row] > c.limits[row]+slack {
			return false
		}
	}
	return true
}
