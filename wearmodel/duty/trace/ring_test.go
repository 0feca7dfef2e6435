package trace

import (
	"math"
	"math/rand/v2"
	"testing"
)

// A random system, multiplied out, must be solved back.
func TestRingSolves(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for _, n := range []int{8, 9, 17, 200} {
		r := newRing(n)
		for i := range n {
			r.at[0][i] += 0.1
			r.addRow(i, rng.Float64(), [4]float64{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()})
		}
		want := make([]float64, n)
		for i := range want {
			want[i] = rng.NormFloat64()
		}
		side := make([]float64, n)
		for k, diagonal := range r.at {
			for i, a := range diagonal {
				j := (i + k) % n
				side[i] += a * want[j]
				if k > 0 {
					side[j] += a * want[i]
				}
			}
		}
		twice := append([]float64(nil), side...)
		for i := range twice {
			twice[i] *= 2
		}
		r.solve(side, twice)
		for i := range want {
			if math.Abs(side[i]-want[i]) > 1e-8 || math.Abs(twice[i]-2*want[i]) > 1e-8 {
				t.Fatalf("n %d, unknown %d: %g, want %g", n, i, side[i], want[i])
			}
		}
	}
}
