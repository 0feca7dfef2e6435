package knapsack

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestUndominated by hand: what another option matches or beats in cost and in
// both sizes is left out; of equal ones the first stays.
func TestUndominated(t *testing.T) {
	o := func(cost, volume, mass float64) Option { return Option{cost, [2]float64{volume, mass}} }
	for _, c := range []struct {
		what    string
		options []Option
		stay    []int
	}{
		{"none", nil, nil},
		{"one", []Option{o(1, 1, 1)}, []int{0}},
		{"equal ones", []Option{o(1, 1, 1), o(1, 1, 1), o(1, 1, 1)}, []int{0}},
		{"dearer alone, after", []Option{o(1, 1, 1), o(2, 1, 1)}, []int{0}},
		{"dearer alone, before", []Option{o(2, 1, 1), o(1, 1, 1)}, []int{1}},
		{"larger alone, after", []Option{o(1, 1, 1), o(1, 2, 1)}, []int{0}},
		{"larger alone, before", []Option{o(1, 2, 1), o(1, 1, 1)}, []int{1}},
		{"heavier alone, after", []Option{o(1, 1, 1), o(1, 1, 2)}, []int{0}},
		{"heavier alone, before", []Option{o(1, 1, 2), o(1, 1, 1)}, []int{1}},
		{"each best in something", []Option{o(1, 2, 2), o(2, 1, 2), o(2, 2, 1)}, []int{0, 1, 2}},
		{"cheaper but heavier", []Option{o(2, 1, 1), o(1, 1, 2), o(3, 1, 1)}, []int{0, 1}},
	} {
		var stay []int
		for _, k := range undominated(c.options) {
			stay = append(stay, k.index)
		}
		if diff := cmp.Diff(c.stay, stay); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.what, diff)
		}
	}
}

// dual is the Lagrangian bound at a worth of the limits, written out again.
func dual(classes [][]Option, limit, worth [2]float64) float64 {
	sum := -worth[0]*limit[0] - worth[1]*limit[1]
	for _, class := range classes {
		least := math.Inf(1)
		for _, o := range class {
			least = min(least, o.Cost+worth[0]*o.Size[0]+worth[1]*o.Size[1])
		}
		sum += least
	}
	return sum
}

// prepared is a search ready to descend.
func prepared(classes [][]Option, limit [2]float64) *search {
	s := &search{limit: limit}
	for _, options := range classes {
		s.classes = append(s.classes, undominated(options))
	}
	s.worth = s.multipliers()
	s.prepare()
	return s
}

// TestMultipliersByHand: one class, 100 without the part or 0 with it, which
// takes twice the room there is. Half of it fits, so the bound is 50 where a
// unit of room is worth 10: 0 + 10*10 - 10*5 = 50 = 100 - 10*5.
func TestMultipliersByHand(t *testing.T) {
	for d := range 2 {
		size, limit := [2]float64{}, [2]float64{1e9, 1e9}
		size[d], limit[d] = 10, 5
		classes := [][]Option{{{Cost: 100}, {Size: size}}}
		s := prepared(classes, limit)
		if math.Abs(s.worth[d]-10) > 0.1 || s.worth[1-d] != 0 {
			t.Errorf("limit %d: worth %v, want 10 of that one", d, s.worth)
		}
		if got := dual(classes, limit, s.worth); got > 50 || got < 49.5 {
			t.Errorf("limit %d: bound %g, want 50 nearly", d, got)
		}
	}
}

// TestBounds: the multipliers are not negative, their bound is below the
// optimum and close to the best that a fine grid of multipliers finds, but for
// a case with next to no room; the
// sums from every depth on are what plain sums give; the classes and their
// options stand in the order promised.
func TestBounds(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 3))
	short := 0
	for n := range 60 {
		classes, limit := random(r, 2+r.IntN(5), 5)
		cost, feasible := brute(classes, limit)
		if !feasible {
			continue
		}
		s := prepared(classes, limit)
		got := dual(classes, limit, s.worth)
		if s.worth[0] < 0 || s.worth[1] < 0 || got > cost+1e-9 {
			t.Fatalf("case %d: worth %v bounds by %g what costs %g", n, s.worth, got, cost)
		}
		most := math.Inf(-1)
		for a := range 100 {
			for b := range 100 {
				most = max(most, dual(classes, limit, [2]float64{float64(a*a) / 20, float64(b*b) / 20}))
			}
		}
		if most-got > 0.05*s.costSpread() {
			short++
		}
		s.ordered(t, n)
	}
	if short > 1 {
		t.Errorf("the bound falls short of the grid's in %d cases", short)
	}
}

// ordered checks what prepare promises.
func (s *search) ordered(t *testing.T, n int) {
	t.Helper()
	regret := func(class []candidate) float64 {
		if len(class) == 1 {
			return math.Inf(1)
		}
		return class[1].reduced - class[0].reduced
	}
	cheapest, reduced, least := 0.0, 0.0, [2]float64{}
	for depth := len(s.order) - 1; depth >= 0; depth-- {
		class := s.classes[s.order[depth]]
		cost, worth, size := math.Inf(1), math.Inf(1), [2]float64{math.Inf(1), math.Inf(1)}
		for k, c := range class {
			if want := c.Cost + s.worth[0]*c.Size[0] + s.worth[1]*c.Size[1]; math.Abs(c.reduced-want) > 1e-9 || k > 0 && c.reduced < class[k-1].reduced {
				t.Errorf("case %d: option %d has a reduced cost of %g, want %g", n, k, c.reduced, want)
			}
			cost, worth = min(cost, c.Cost), min(worth, c.reduced)
			size = [2]float64{min(size[0], c.Size[0]), min(size[1], c.Size[1])}
		}
		cheapest, reduced = cheapest+cost, reduced+worth
		least = [2]float64{least[0] + size[0], least[1] + size[1]}
		if math.Abs(s.cheapest[depth]-cheapest) > 1e-9 || math.Abs(s.reduced[depth]-reduced) > 1e-9 || s.least[depth] != least {
			t.Errorf("case %d: from depth %d on %g, %g, %v; want %g, %g, %v", n, depth, s.cheapest[depth], s.reduced[depth], s.least[depth], cheapest, reduced, least)
		}
		if depth > 0 && regret(s.classes[s.order[depth-1]]) < regret(class) {
			t.Errorf("case %d: depth %d decides more than the one before it", n, depth)
		}
	}
}

// TestLimitIsReached: what fills a limit to the last bit fits, what goes over
// it does not, in either limit and by several parts.
func TestLimitIsReached(t *testing.T) {
	for d := range 2 {
		size, limit := [2]float64{}, [2]float64{100, 100}
		size[d], limit[d] = 0.1, 0.3
		part := []Option{{Cost: 50}, {Size: size}}
		if got := Solve([][]Option{part, part, part}, limit); got.Cost != 0 {
			t.Errorf("limit %d: three times 0.1 in 0.3 left out: cost %g", d, got.Cost)
		}
		if got := Solve([][]Option{part, part, part, part}, limit); got.Cost != 50 {
			t.Errorf("limit %d: four times 0.1 in 0.3 cost %g, want one left out", d, got.Cost)
		}
		if got := Solve([][]Option{part[1:], part[1:], part[1:], part[1:]}, limit); got.Feasible || got.Nodes != 1 {
			t.Errorf("limit %d: four times 0.1 that must go into 0.3: feasible %v after %d nodes", d, got.Feasible, got.Nodes)
		}
	}
}

// TestTreeStaysSmall: the bounds are good for what they are there for. Without
// limits the first dive is the answer: a node a class and the root. Within them
// the trees of 60 cases of 20 classes have as many nodes as counted here: a
// weaker bound or a worse order shows nowhere else, since the answer stays
// right. A better one makes them fewer.
func TestTreeStaysSmall(t *testing.T) {
	const counted = 1936
	r := rand.New(rand.NewPCG(2, 8))
	nodes := 0
	for n := 0; n < 60; {
		classes, limit := random(r, 20, 6)
		got := Solve(classes, limit)
		if !got.Feasible {
			continue
		}
		n++
		nodes += got.Nodes
		if free := Solve(classes, [2]float64{1e6, 1e6}); free.Nodes != 21 {
			t.Errorf("case %d: %d nodes without limits, want 21", n, free.Nodes)
		}
	}
	if nodes != counted {
		t.Errorf("%d nodes, counted %d", nodes, counted)
	}
}
