package line

import (
	"math"
	"math/rand/v2"
	"testing"
)

// The least within bounds, against one coordinate at a time: a different method
// that ends at the same place, since the sum of squares is convex.
func TestLeastWithin(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9))
	for _, n := range []int{12, 13, 40} {
		rows, rest := make(ringRows, n), make([]float64, n)
		low, high := make([]float64, n), make([]float64, n)
		for i := range rows {
			rows[i] = [3]float64{1 + r.Float64(), -2 + r.Float64(), 1 + r.Float64()}
			rest[i] = 5 * r.NormFloat64()
			low[i] = -1 - r.Float64()
			high[i] = 1 + r.Float64()
		}
		got := rows.leastWithin(rest, low, high)
		want := make([]float64, n)
		for range 3000 {
			for i := range want {
				down, weight := rows.pull(want, rest)[i], 0.0
				for k, j := range [3]int{(i + 1) % n, i, (i + n - 1) % n} {
					weight += rows[j][k] * rows[j][k]
				}
				want[i] = math.Max(low[i], math.Min(high[i], want[i]+down/weight))
			}
		}
		bound := 0
		for i := range want {
			if math.Abs(got[i]-want[i]) > 1e-4 {
				t.Errorf("%d of %d: %.6f, want %.6f", i, n, got[i], want[i])
			}
			if want[i] == low[i] || want[i] == high[i] {
				bound++
			}
		}
		if bound == 0 || bound == n {
			t.Errorf("%d of %d at their bounds: nothing is tried", bound, n)
		}
	}
}
