package season

import (
	"cmp"
	"math"
	"slices"

	"example.com/tripwear/planner/decision"
)

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
				steps := make([]decision.Step, len(p.steps))
				for k, step := range p.steps {
					steps[k] = *step
				}
				c.best.Paths = append(c.best.Paths, steps)
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
