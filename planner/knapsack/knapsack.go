// Package knapsack chooses one option from each of several classes at the
// least cost under two limits, exactly: the multiple-choice knapsack problem
// with two constraints, by branch and bound on a Lagrangian lower bound.
//
// Method: H. Kellerer, U. Pferschy, D. Pisinger, Knapsack Problems, chapter
// 11 (multiple choice) and chapter 9 (several constraints), from memory.
package knapsack

import (
	"cmp"
	"math"
	"slices"
)

// Option is one choice within a class.
type Option struct {
	Cost float64    // any finite number
	Size [2]float64 // what it takes of each limit, at least 0
}

// Result is the best choice, with the proof that it is the best.
type Result struct {
	Feasible bool
	Choice   []int   // by class, the index of its option
	Cost     float64 // of the choice
	Bound    float64 // no choice costs less; equal to Cost
	Nodes    int     // of the search tree
}

// candidate is an option that no other of its class beats in everything.
type candidate struct {
	Option
	index   int
	reduced float64 // cost plus what its size is worth
}

// Solve finds the least-cost choice of one option a class whose sizes keep to
// the limits. A class without options makes it infeasible.
func Solve(classes [][]Option, limit [2]float64) Result {
	s := &search{limit: limit, classes: make([][]candidate, len(classes))}
	for i, options := range classes {
		s.classes[i] = undominated(options)
		if len(s.classes[i]) == 0 {
			return Result{}
		}
	}
	s.worth = s.multipliers()
	s.prepare()
	s.best.Cost = math.Inf(1)
	s.choice = make([]int, len(classes))
	s.descend(0, 0, [2]float64{})
	if !s.best.Feasible {
		return Result{Nodes: s.best.Nodes}
	}
	s.best.Bound = s.best.Cost // the tree is exhausted: nothing below it is left
	return s.best
}

// undominated drops the options that another one of the class matches or
// beats in cost and in both sizes.
func undominated(options []Option) []candidate {
	var out []candidate
	for i, o := range options {
		beaten := slices.ContainsFunc(options[:i], func(p Option) bool { return p.covers(o) }) ||
			slices.ContainsFunc(options[i+1:], func(p Option) bool { return p.covers(o) && p != o })
		if !beaten {
			out = append(out, candidate{Option: o, index: i})
		}
	}
	return out
}

// covers says whether o matches or beats p in cost and in both sizes.
func (o Option) covers(p Option) bool {
	return o.Cost <= p.Cost && o.Size[0] <= p.Size[0] && o.Size[1] <= p.Size[1]
}

// search is a depth-first search over the classes in a fixed order.
type search struct {
	classes [][]candidate
	order   []int
	limit   [2]float64
	worth   [2]float64 // of a unit of each limit

	cheapest []float64    // from a depth on, the least cost, limits ignored
	reduced  []float64    // from a depth on, the least reduced cost
	least    [][2]float64 // from a depth on, the least of each size
	choice   []int
	best     Result
}

// multipliers finds what a unit of each limit is worth, by subgradient steps
// on the Lagrangian dual. Any values not below 0 give a valid bound; good
// ones a tight one.
func (s *search) multipliers() [2]float64 {
	const steps = 200
	var worth, best [2]float64
	top := math.Inf(-1)
	scale := [2]float64{}
	for _, class := range s.classes {
		for _, c := range class {
			scale[0], scale[1] = max(scale[0], c.Size[0]), max(scale[1], c.Size[1])
		}
	}
	spread := s.costSpread()
	for step := range steps {
		value := float64(-worth[0]*s.limit[0]) - float64(worth[1]*s.limit[1])
		excess := [2]float64{-s.limit[0], -s.limit[1]}
		for _, class := range s.classes {
			c := slices.MinFunc(class, func(a, b candidate) int { return cmp.Compare(a.reducedCost(worth), b.reducedCost(worth)) })
			value += c.Cost + float64(worth[0]*c.Size[0]) + float64(worth[1]*c.Size[1])
			excess[0] += c.Size[0]
			excess[1] += c.Size[1]
		}
		if value > top {
			top, best = value, worth
		}
		for d := range worth {
			if scale[d] > 0 {
				pace := spread / scale[d] / float64(2+step)
				worth[d] = max(0, worth[d]+float64(pace*max(-1, min(1, excess[d]/scale[d]))))
			}
		}
	}
	return best
}

// costSpread is the widest range of costs within a class.
func (s *search) costSpread() float64 {
	widest := 0.0
	for _, class := range s.classes {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, c := range class {
			lo, hi = min(lo, c.Cost), max(hi, c.Cost)
		}
		widest = max(widest, hi-lo)
	}
	return widest
}

// reducedCost is the cost of an option plus what its size is worth.
func (o Option) reducedCost(worth [2]float64) float64 {
	return o.Cost + float64(worth[0]*o.Size[0]) + float64(worth[1]*o.Size[1])
}

// prepare orders the classes, the most decisive first, and their options, the
// most promising first, and adds up the bounds from every depth on.
func (s *search) prepare() {
	n := len(s.classes)
	regret := make([]float64, n)
	for i, class := range s.classes {
		for k := range class {
			c := &class[k]
			c.reduced = c.reducedCost(s.worth)
		}
		slices.SortStableFunc(class, func(a, b candidate) int { return cmp.Compare(a.reduced, b.reduced) })
		regret[i] = math.Inf(1)
		if len(class) > 1 {
			regret[i] = class[1].reduced - class[0].reduced
		}
		s.order = append(s.order, i)
	}
	slices.SortStableFunc(s.order, func(a, b int) int { return cmp.Compare(regret[b], regret[a]) })

	s.cheapest, s.reduced = make([]float64, n+1), make([]float64, n+1)
	s.least = make([][2]float64, n+1)
	for depth := n - 1; depth >= 0; depth-- {
		class := s.classes[s.order[depth]]
		cost, size := math.Inf(1), [2]float64{math.Inf(1), math.Inf(1)}
		for _, c := range class {
			cost = min(cost, c.Cost)
			size[0], size[1] = min(size[0], c.Size[0]), min(size[1], c.Size[1])
		}
		s.cheapest[depth] = s.cheapest[depth+1] + cost
		s.reduced[depth] = s.reduced[depth+1] + class[0].reduced
		s.least[depth] = [2]float64{s.least[depth+1][0] + size[0], s.least[depth+1][1] + size[1]}
	}
}

// slack is what rounding may do to a sum of sizes.
const slack = 1e-9

// descend tries the options of the class at a depth.
func (s *search) descend(depth int, cost float64, size [2]float64) {
	s.best.Nodes++
	if depth == len(s.order) {
		if cost < s.best.Cost {
			s.best.Feasible, s.best.Cost, s.best.Choice = true, cost, slices.Clone(s.choice)
		}
		return
	}
	i := s.order[depth]
	for _, c := range s.classes[i] {
		total := [2]float64{size[0] + c.Size[0], size[1] + c.Size[1]}
		next := depth + 1
		if total[0]+s.least[next][0] > s.limit[0]+slack || total[1]+s.least[next][1] > s.limit[1]+slack {
			continue
		}
		spent := cost + c.Cost
		dual := spent + float64(s.worth[0]*(total[0]-s.limit[0])) + float64(s.worth[1]*(total[1]-s.limit[1])) + s.reduced[next]
		if max(spent+s.cheapest[next], dual) >= s.best.Cost {
			continue
		}
		s.choice[i] = c.index
		s.descend(next, spent, total)
	}
}
