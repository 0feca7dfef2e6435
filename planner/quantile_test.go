package planner

import (
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"
)

// TestQuantilesMatchGonum compares with gonum's empirical quantile and distribution
// function on sorted data, exactly: both pick an order statistic.
func TestQuantilesMatchGonum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 3000).Draw(t, "n")
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0))
		coarse := rapid.Bool().Draw(t, "ties")
		x := make([]float64, n)
		for i := range x {
			x[i] = r.NormFloat64()
			if coarse {
				x[i] = float64(int(3 * x[i]))
			}
		}
		limit, margin := rapid.Float64Range(-3, 3).Draw(t, "limit"), rapid.Float64Range(-3, 3).Draw(t, "margin")
		h := newHistogram(n)
		h.fill(x)
		got := h.band(x, limit, margin)
		slices.Sort(x)
		want := Band{
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
		h := newHistogram(1)
		lo := rapid.Float64Range(-10, 10).Draw(t, "lo")
		hi := lo + rapid.Float64Range(1e-3, 20).Draw(t, "width")
		h.open(lo, hi)
		if first, middle, last := h.bin(lo), h.bin((lo+hi)/2), h.bin(hi); first != 0 || middle < bins/2-1 || middle > bins/2 || last != bins-1 {
			t.Fatalf("of %d bins the bounds lie in %d and %d, their mean in %d", bins, first, last, middle)
		}
		if below, above := h.line(lo-1), h.line(hi+1); below != 0 || above != bins-1 {
			t.Fatalf("lines beyond the bounds lie in %d and %d", below, above)
		}
		h.open(lo, lo)
		if b := h.bin(lo); b != 0 {
			t.Fatalf("equal values lie in bin %d", b)
		}
	})
}
