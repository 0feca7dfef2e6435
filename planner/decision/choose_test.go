package decision

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
)

// anyMenu draws a few sets, two of which may share a part and an axle, with
// options at home and at four stops.
func anyMenu(t *rapid.T) *menu {
	m := &menu{visit: rapid.Float64Range(0, 100).Draw(t, "visit"), limit: [2]float64{10, 10}}
	ids := []string{"pads-front", "hub-LF", "rotors-front", "hub-RF"}
	shelf := rapid.IntRange(0, 2).Draw(t, "shelf")
	for i := range rapid.IntRange(1, 4).Draw(t, "sets") {
		s := &projection.Set{Set: plan.Set{ID: ids[i], Part: fmt.Sprint("part ", i%2)}, Shelf: shelf}
		m.sets = append(m.sets, s)
		var options []option
		for range rapid.IntRange(1, 4).Draw(t, "options") {
			op := option{site: rapid.IntRange(noSite, 3).Draw(t, "site")}
			op.Shop = rapid.Bool().Draw(t, "shop")
			op.Shelf = rapid.IntRange(0, shelf).Draw(t, "from the shelf")
			op.Labor = float64(rapid.IntRange(0, 50).Draw(t, "labor"))
			op.Cost = op.Labor + float64(rapid.IntRange(0, 200).Draw(t, "cost"))
			op.size = [2]float64{float64(rapid.IntRange(0, 8).Draw(t, "volume")), float64(rapid.IntRange(0, 8).Draw(t, "mass"))}
			if rapid.IntRange(0, 4).Draw(t, "ruled out") == 0 {
				op.ruledOut = plan.BindCap
			}
			options = append(options, op)
		}
		m.options = append(m.options, options)
	}
	m.shares = m.shelfShares()
	return m
}

// cost prices a combination by itself: every visit once, an axle's smaller job
// free where both are done at one site, no more from the shelf than it
// holds, and all within the trunk.
func (m *menu) cost(pick []int) float64 {
	cost := 0.0
	visited, taken, size := map[int]bool{}, map[string]int{}, [2]float64{}
	for i, k := range pick {
		if k == noOption {
			cost += noActionCost
			continue
		}
		op := m.options[i][k]
		if op.ruledOut != "" {
			return math.Inf(1)
		}
		cost += op.Cost
		if (op.site >= 0 || op.site == homeSite && op.Shop) && !visited[op.site] {
			visited[op.site] = true
			cost += m.visit
		}
		taken[m.sets[i].Part] += op.Shelf
		if taken[m.sets[i].Part] > m.sets[i].Shelf {
			return math.Inf(1)
		}
		size[0] += op.size[0]
		size[1] += op.size[1]
	}
	if size[0] > m.limit[0] || size[1] > m.limit[1] {
		return math.Inf(1)
	}
	if len(pick) > 2 && pick[0] != noOption && pick[2] != noOption {
		pads, rotors := m.options[0][pick[0]], m.options[2][pick[2]]
		if pads.site == rotors.site && pads.site != noSite {
			cost -= math.Min(pads.Labor, rotors.Labor)
		}
	}
	return cost
}

// TestChoiceAgainstBruteForce: no combination of options, tried one by one, is
// cheaper than the chosen one, and the chosen one costs what it says.
func TestChoiceAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := anyMenu(t)
		got := m.solve(m.limit, nil)
		if own := m.cost(got.pick); math.Abs(own-got.Cost) > 1e-6 || math.Abs(got.Bound-got.Cost) > 1e-6 {
			t.Fatalf("chosen %v: says %g with a bound of %g, costs %g", got.pick, got.Cost, got.Bound, own)
		}
		best := math.Inf(1)
		pick := make([]int, len(m.sets))
		var try func(i int)
		try = func(i int) {
			if i == len(pick) {
				best = math.Min(best, m.cost(pick))
				return
			}
			for k := noOption; k < len(m.options[i]); k++ {
				pick[i] = k
				try(i + 1)
			}
		}
		try(0)
		if got.Cost > best+1e-6 {
			t.Fatalf("chosen %v at %g, brute force finds %g", got.pick, got.Cost, best)
		}
	})
}

// manyStops is a made-up menu of so many sets that each of so many stops can
// replace at a price of its own.
func manyStops(sets, stops int, visit float64, price func(set, stop int) float64) *menu {
	m := &menu{visit: visit, limit: [2]float64{10, 10}}
	for i := range sets {
		m.sets = append(m.sets, &projection.Set{Set: plan.Set{ID: fmt.Sprint("set ", i), Part: fmt.Sprint("part ", i)}})
		options := []option{{site: noSite}}
		options[0].Cost = price(i, noSite)
		for j := range stops {
			op := option{site: j, size: [2]float64{float64(i % 3), float64(j % 2)}}
			op.Cost, op.Shop = price(i, j), true
			options = append(options, op)
		}
		m.options = append(m.options, options)
	}
	m.shares = m.shelfShares()
	return m
}

// TestChoiceAgainstEverySelection: no selection of shops, tried one by
// one, is cheaper than the chosen one.
func TestChoiceAgainstEverySelection(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const stops = 5
		price := rapid.IntRange(0, 300)
		m := manyStops(rapid.IntRange(1, 8).Draw(t, "sets"), stops, float64(rapid.IntRange(0, 150).Draw(t, "visit")),
			func(int, int) float64 { return float64(price.Draw(t, "price")) })
		best := math.Inf(1)
		for mask := range 1 << stops {
			var closed []int
			for j := range stops {
				if mask&(1<<j) == 0 {
					closed = append(closed, j)
				}
			}
			v := shopSearch{menu: m, limit: m.limit}
			best = math.Min(best, v.relax(closed).Cost+m.visit*float64(stops-len(closed)))
		}
		if got := m.solve(m.limit, nil); math.Abs(got.Cost-best) > 1e-6 {
			t.Fatalf("chosen %v at %g, one by one %g", got.pick, got.Cost, best)
		}
	})
}

// BenchmarkStops chooses for 12 sets among as many stops with a shop as
// its name says; a selection of each would be 65,536 at 16 stops.
func BenchmarkStops(b *testing.B) {
	for _, stops := range []int{4, 8, 16, 32} {
		m := manyStops(12, stops, 80, func(set, stop int) float64 { return float64((set*37+stop*61)%97) + 40*float64(set%4) })
		b.Run(fmt.Sprint(stops), func(b *testing.B) {
			for b.Loop() {
				m.solve(m.limit, nil)
			}
		})
	}
}

// TestManyShops: a trip past 16 shops is decided in few searches,
// though there are 65,536 selections of them.
func TestManyShops(t *testing.T) {
	m := manyStops(12, 16, 80, func(set, stop int) float64 { return float64((set*37+stop*61)%97) + 40*float64(set%4) })
	if got := m.solve(m.limit, nil); got.Nodes > 10_000 {
		t.Errorf("%d nodes", got.Nodes)
	}
}
