package season

import (
	"math"
	"slices"
	"time"

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
	uses  [][]use // by step
}

// use is what a step takes of a row of what the sets share.
type use struct {
	row    int
	amount float64
}

// Lay works out all that can be done about a set of the season.
func (s *Season) Lay(a *Ahead, steps func(stretch int, on decision.Part) []decision.Step) {
	open := []decision.Part{{}}
	for k := range s.Trunk {
		var layer []state
		var next []decision.Part
		known := map[decision.Part]int{}
		for _, on := range open {
			at := state{steps: steps(k, on)}
			for _, step := range at.steps {
				to, ok := known[step.Next]
				if !ok {
					to, next = len(next), append(next, step.Next)
					known[step.Next] = to
				}
				at.next = append(at.next, to)
			}
			layer = append(layer, at)
		}
		a.states, open = append(a.states, layer), next
	}
	a.states = append(a.states, make([]state, len(open)))
}

// limit notes what each step of every set takes of what is short.
func (s *Season) limit() {
	for _, a := range s.Sets {
		for k, layer := range a.states {
			for i := range layer {
				at := &layer[i]
				at.uses = nil
				for n := range at.steps {
					at.uses = append(at.uses, s.uses(k, a.Part, &at.steps[n]))
				}
			}
		}
	}
}

// Season is what the sets share.
type Season struct {
	Sets  []Ahead
	Trunk [][2]float64 // by stretch: m3, kg
	Visit float64      // what a visit to a shop costs, once for all that is done there

	First time.Time // its first month
	Spend []float64 // what parts may cost up to the end of each month; nil for no budget
	Most  float64   // nobody asks for a combination that costs as much; 0 for any
}

// limits are the rows of what the sets share: the room on each stretch, the money
// by the end of each month, and what lies on the shelf for each set or for those
// before it with the same part.
func (s *Season) limits() []float64 {
	var out []float64
	for _, room := range s.Trunk {
		out = append(out, room[0], room[1])
	}
	out = append(out, s.Spend...)
	for _, a := range s.Sets {
		out = append(out, float64(a.Shelf))
	}
	return out
}

// shelf is the row of what lies on the shelf for a part.
func (s *Season) shelf(part string) int {
	return 2*len(s.Trunk) + len(s.Spend) + slices.IndexFunc(s.Sets, func(a Ahead) bool { return a.Part == part })
}

// uses is what a step about a part on a stretch takes of each row.
func (s *Season) uses(k int, part string, step *decision.Step) []use {
	var out []use
	if step.Shelf > 0 {
		out = append(out, use{s.shelf(part), float64(step.Shelf)})
	}
	for d, size := range step.Size {
		if size > 0 {
			out = append(out, use{2*k + d, size})
		}
	}
	for _, b := range step.Bills {
		month := 12*(b.Day.Year()-s.First.Year()) + int(b.Day.Month()-s.First.Month())
		for m := max(0, month); m < len(s.Spend) && b.Amount > 0; m++ {
			out = append(out, use{2*len(s.Trunk) + m, b.Amount})
		}
	}
	return out
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

// mostPaths and mostBounded are when the search for a choice within a budget is given
// up, of paths a set that no other beats and of nodes: far more than one takes that
// holds.
const mostPaths, mostBounded = 2_000, 300_000

// Choose finds the least expected cost.
//
// Room in a trunk and money by a month have a price, and a visit to a shop is shared
// out among the sets: whatever the prices and shares, a combination costs at least L,
// the sum of what each set's cheapest path costs by itself with them, less what all
// the room and money is worth. (Lagrangian duality: the price of what is not taken is
// not below 0, what is paid for a visit in all is no more than its price, and labor
// that two sets share saves at most some share of one's and the rest of the other's.)
// A path that costs a set more by g than its cheapest is in no combination of less
// than L + g. So where the best combination of the paths within g costs no more than L
// + g, none is better. Of the paths within g those are left out that another beats in
// all that sets share, since it could take their place in any combination. Where
// nobody asks for one of M or more and none of the paths within M - L will do, none
// costs less than M.
func Choose(s Season) Choice {
	sets := make([]*search, len(s.Sets))
	for i, a := range s.Sets {
		sets[i] = &search{Ahead: a, visits: map[site]float64{}, credit: map[site]float64{}}
		if s.Most > 0 {
			sets[i].give = mostPaths
		}
		sets[i].mate = slices.IndexFunc(s.Sets, func(b Ahead) bool { return a.Partner != "" && b.Set == a.Partner })
	}
	limits := s.limits()
	s.limit()
	price, least := s.prices(sets, limits)
	most, nodes := math.Inf(1), mostNodes
	if s.Most > 0 {
		most, nodes = s.Most, mostBounded
	}
	best := Choice{Cost: most}
	for gap := min(1, most-least); ; gap = min(best.Cost-least, 4*gap) {
		c := combination{Season: &s, sets: sets, limits: limits, worth: worth(price, limits), best: best, nodes: nodes}
		listed := true
		for _, one := range sets {
			paths, ok := one.within(gap, price)
			c.paths, listed = append(c.paths, paths), listed && ok
		}
		if listed {
			c.solve()
			best = c.best
		}
		whole := listed && best.Nodes <= nodes
		done := whole && best.Cost-least <= gap+1e-9
		if done || !whole && (best.Paths != nil || s.Most > 0) {
			if best.Bound = best.Cost; !done {
				best.Bound = least
			}
			for _, one := range sets {
				best.Waits = append(best.Waits, one.waits(len(limits)))
			}
			return best
		}
	}
}

// InTurn is what it costs where each stretch is chosen by itself, from what the
// one before leaves, without a thought of those after it, and how often a set
// then keeps the car at home.
func InTurn(s Season) (sum float64, refused int) {
	on, shelf := make([]int, len(s.Sets)), make([]int, len(s.Sets))
	for k := range s.Trunk {
		alone := Season{Visit: s.Visit, Trunk: s.Trunk[k : k+1]} // whatever the budget
		for i, a := range s.Sets {
			now := a.states[k][on[i]]
			a.states = [][]state{{{steps: now.steps, next: make([]int, len(now.steps))}}, {{}}}
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
