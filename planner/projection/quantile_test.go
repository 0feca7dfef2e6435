package projection

import (
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"

	"example.com/tripwear/planner/plan"
)

// TestQuantilesMatchGonum compares with gonum's empirical quantile and distribution
// function on sorted data, exactly: both pick an order statistic.
func TestQuantilesMatchGonum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 3000).Draw(t, "n")
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0))
		kind := rapid.SampledFrom([]string{"apart", "ties", "one rounding error apart"}).Draw(t, "values")
		x := make([]float64, n)
		for i := range x {
			x[i] = r.NormFloat64()
			switch kind {
			case "ties":
				x[i] = float64(int(3 * x[i]))
			case "one rounding error apart":
				x[i] = 1 + 0x1p-52*float64(int(3*x[i]))
			}
		}
		limit, margin := rapid.Float64Range(-3, 3).Draw(t, "limit"), rapid.Float64Range(-3, 3).Draw(t, "margin")
		h := newHistogram(n)
		got := h.band(newColumn(x), limit, margin)
		slices.Sort(x)
		want := plan.Band{
			P5:      stat.Quantile(0.05, stat.Empirical, x, nil),
			P50:     stat.Quantile(0.50, stat.Empirical, x, nil),
			P95:     stat.Quantile(0.95, stat.Empirical, x, nil),
			PLimit:  stat.CDF(limit, stat.Empirical, x, nil),
			PMargin: stat.CDF(margin, stat.Empirical, x, nil),
		}
		if got != want {
			t.Fatalf("%d draws: got %+v, want %+v", n, got, want)
		}
	})
}

// TestBins: a column lies in all the bins, its least in the first and its
// greatest in the last, and one of equal values in the first.
func TestBins(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lo := rapid.Float64Range(-10, 10).Draw(t, "lo")
		hi := lo + rapid.Float64Range(1e-3, 20).Draw(t, "width")
		h := newSpan(lo, hi)
		if first, middle, last := h.bin(lo), h.bin((lo+hi)/2), h.bin(hi); first != 0 || middle < bins/2-1 || middle > bins/2 || last != bins-1 {
			t.Fatalf("of %d bins the bounds lie in %d and %d, their mean in %d", bins, first, last, middle)
		}
		h = newSpan(lo, lo)
		if b := h.bin(lo); b != 0 {
			t.Fatalf("equal values lie in bin %d", b)
		}
	})
}
