package planner

import (
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"
)

// TestQuantilesMatchGonum compares with gonum's empirical quantile on sorted
// data, exactly: both pick an order statistic.
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
		got := make([]float64, len(bandShares))
		new(quantiles).at(x, bandShares, got)
		slices.Sort(x)
		for i, p := range bandShares {
			if want := stat.Quantile(p, stat.Empirical, x, nil); got[i] != want {
				t.Fatalf("quantile %g of %d: got %g, want %g", p, n, got[i], want)
			}
		}
	})
}
