package reliability

import (
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// The factor, what it solves and its inverse within the skyline are those of
// gonum's dense matrices.
func TestSkylineIsDense(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 14).Draw(t, "n")
		first := make([]int, n)
		for i := range first {
			first[i] = rapid.IntRange(0, i).Draw(t, "first")
		}
		m, dense := newSkyline(first), mat.NewSymDense(n, nil)
		for i := range n {
			for j := first[i]; j <= i; j++ {
				v := rapid.Float64Range(-1, 1).Draw(t, "cell")
				if i == j {
					v = float64(n) + rapid.Float64Range(0.1, 2).Draw(t, "diagonal")
				}
				*m.cell(j, i) = v
				dense.SetSym(i, j, v)
			}
		}
		const lift = 1.25
		l, ok := m.factorize(lift)
		for i := range n {
			dense.SetSym(i, i, lift*dense.At(i, i))
		}
		var chol mat.Cholesky
		if !chol.Factorize(dense) || !ok {
			t.Fatalf("no factor: %t", ok)
		}
		x, want := make([]float64, n), mat.NewVecDense(n, nil)
		for i := range x {
			x[i] = float64(i%5) - 1.5
		}
		if err := chol.SolveVecTo(want, mat.NewVecDense(n, append([]float64(nil), x...))); err != nil {
			t.Fatal(err)
		}
		l.forward(x)
		l.backward(x)
		var inverse mat.SymDense
		if err := chol.InverseTo(&inverse); err != nil {
			t.Fatal(err)
		}
		z := l.inverse()
		for i := range n {
			if !scalar.EqualWithinAbs(x[i], want.AtVec(i), 1e-12) {
				t.Errorf("x[%d] is %g, want %g", i, x[i], want.AtVec(i))
			}
			for j := first[i]; j <= i; j++ {
				if got := *z.cell(i, j); !scalar.EqualWithinAbs(got, inverse.At(i, j), 1e-12) {
					t.Errorf("inverse[%d,%d] is %g, want %g", i, j, got, inverse.At(i, j))
				}
			}
		}
	})
}

// A matrix that is not positive definite has no factor.
func TestSkylineWithoutFactor(t *testing.T) {
	m := newSkyline([]int{0, 0})
	*m.cell(0, 0), *m.cell(1, 0), *m.cell(1, 1) = 1, 2, 3
	if _, ok := m.factorize(1); ok {
		t.Error("a factor of a matrix with a determinant of -1")
	}
	if _, ok := m.factorize(2.1); !ok {
		t.Error("none of one with a determinant of 9.2")
	}
}
