package season

import (
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
