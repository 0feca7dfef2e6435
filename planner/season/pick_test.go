package season

import (
	"math"
	"math/bits"
	"testing"

	"pgregory.net/rapid"

	"example.com/tripwear/planner/randomcar"
)

// TestPicks: no set of the size that does not clash is worth less, by trying all
// of them, bit by bit.
func TestPicks(t *testing.T) {
	randomcar.Check(t, 60, func(t *rapid.T) {
		n, size := rapid.IntRange(1, 7).Draw(t, "events"), rapid.IntRange(0, 4).Draw(t, "weekends")
		days := rapid.SliceOfN(rapid.IntRange(0, 12), n, n).Draw(t, "days")
		own := rapid.SliceOfN(rapid.IntRange(0, 9), n, n).Draw(t, "cost")
		more := rapid.SliceOfN(rapid.IntRange(0, 9), 1<<n, 1<<n).Draw(t, "cost of the set")
		clash := func(a, b int) bool { return max(days[a]-days[b], days[b]-days[a]) < 2 }
		mask := func(set []int) (m int) {
			for _, e := range set {
				m |= 1 << e
			}
			return m
		}
		least := func(m int) float64 {
			sum := 0
			for e := range n {
				sum += m >> e & 1 * own[e]
			}
			return float64(sum) / float64(bits.OnesCount(uint(m)))
		}
		cost := func(set []int) float64 { // of the whole, no less than that of the first alone
			sum := 0
			for k := range set {
				sum += more[mask(set[:k+1])]
			}
			return float64(sum)
		}
		value := func(set []int) float64 { return least(mask(set)) + cost(set)/float64(len(set)) }
		want := math.Inf(1)
		for m := 1; m < 1<<n; m++ {
			ok := size == 0 || bits.OnesCount(uint(m)) == size
			for a := range n {
				for b := range a {
					ok = ok && !(m>>a&1 == 1 && m>>b&1 == 1 && clash(a, b))
				}
			}
			if ok {
				var set []int
				for e := range n {
					if m>>e&1 == 1 {
						set = append(set, e)
					}
				}
				want = min(want, value(set))
			}
		}
		picks := Picks(n, size, clash, func(set []int) float64 { return least(mask(set)) })
		for i := range picks {
			picks[i].Turn = picks[i].Events[0] % 3
		}
		bound := func(p Pick, cost float64) float64 { return least(mask(p.Events)) + cost/float64(len(p.Events)) }
		tried := map[int]bool{}
		best, proved, err := Best(picks, math.MaxInt, bound, func(set []int) (Planned, error) {
			if tried[mask(set)] {
				t.Errorf("%v planned again", set)
			}
			tried[mask(set)] = true
			return Planned{cost(set), value(set)}, nil
		})
		if err != nil || !proved {
			t.Fatal(proved, err)
		}
		got := math.Inf(1)
		if best >= 0 {
			got = value(picks[best].Events)
		}
		if got != want {
			t.Fatalf("%g, by trying all %g", got, want)
		}
	})
}
