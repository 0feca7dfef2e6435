package trace

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
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

// Rows add up to the matrix that they make when written out, and its solution
// is that of a dense solver (gonum's Cholesky).
func TestRingAgainstDense(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for _, n := range []int{7, 8, 12, 31} {
		r := newRing(n)
		dense := mat.NewSymDense(n, nil)
		put := func(first int, weight float64, row [4]float64) {
			r.addRow(first, weight, row)
			whole := mat.NewVecDense(n, nil)
			for a, v := range row {
				whole.SetVec((first+a)%n, v)
			}
			dense.SymRankOne(dense, weight, whole)
		}
		for i := range n {
			put(i, 0.5+rng.Float64(), [4]float64{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()})
			put(i, 0.25, [4]float64{1})
		}
		for k, diagonal := range r.at {
			for i, v := range diagonal {
				near(t, "element", v, dense.At(i, (i+k)%n), 1e-12)
			}
		}
		var factor mat.Cholesky
		if !factor.Factorize(dense) {
			t.Fatal("not positive definite")
		}
		side := mat.NewVecDense(n, nil)
		for i := range n {
			side.SetVec(i, rng.NormFloat64())
		}
		var want mat.VecDense
		if err := factor.SolveVecTo(&want, side); err != nil {
			t.Fatal(err)
		}
		got := append([]float64(nil), side.RawVector().Data...)
		r.solve(got)
		for i := range got {
			near(t, "unknown", got[i], want.AtVec(i), 1e-10)
		}
		r.clear()
		for _, diagonal := range r.at {
			for _, v := range diagonal {
				if v != 0 {
					t.Fatal("something is left")
				}
			}
		}
	}
}
