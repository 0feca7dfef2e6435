package line

import (
	"math"

	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
	"gonum.org/v1/gonum/mat"
)

// ringRows are rows that each hold three neighbors of a ring: row i times x is
// a[i][0] x[i-1] + a[i][1] x[i] + a[i][2] x[i+1].
type ringRows [][3]float64

// leastWithin finds the x between low and high that makes the sum of squares of
// (rows x + rest) least, from within: Newton's method on the primal-dual
// conditions with a barrier that is lowered tenfold a step (S. Wright,
// Primal-Dual Interior-Point Methods, SIAM 1997, chapter 1). Nil where there is
// none.
func (rows ringRows) leastWithin(rest, low, high []float64) []float64 {
	const (
		steps = 60
		near  = 1e-9 // of the first complementarity
		lower = 0.1
	)
	n := len(rows)
	x, zl, zh := make([]float64, n), make([]float64, n), make([]float64, n)
	diagonal := 0.0
	for i, r := range rows {
		x[i] = (low[i] + high[i]) / 2
		diagonal += float64(r[0]*r[0]) + float64(r[1]*r[1]) + float64(r[2]*r[2])
	}
	for i := range x {
		zl[i] = diagonal / float64(n) * (high[i] - low[i])
		zh[i] = zl[i]
	}
	gap := func() (sum float64) {
		for i := range x {
			sum += float64(zl[i]*(x[i]-low[i])) + float64(zh[i]*(high[i]-x[i]))
		}
		return sum / float64(2*n)
	}
	first := gap()
	for range steps {
		now := gap()
		if now <= near*first {
			return x
		}
		mu := lower * now
		slack := make([]float64, n)
		down := rows.pull(x, rest) // minus the gradient, with the barrier's
		for i := range x {
			l, h := x[i]-low[i], high[i]-x[i]
			slack[i] = zl[i]/l + zh[i]/h
			down[i] += mu/l - mu/h
		}
		dx := rows.solve(slack, down)
		if dx == nil {
			return nil
		}
		by, dual := 1.0, 1.0
		dl, dh := make([]float64, n), make([]float64, n)
		for i := range x {
			l, h := x[i]-low[i], high[i]-x[i]
			dl[i] = mu/l - zl[i] - float64(zl[i]/l*dx[i])
			dh[i] = mu/h - zh[i] + float64(zh[i]/h*dx[i])
			by = min(by, reach(l, dx[i]), reach(h, -dx[i]))
			dual = min(dual, reach(zl[i], dl[i]), reach(zh[i], dh[i]))
		}
		for i := range x {
			x[i] += float64(by * dx[i])
			zl[i] += float64(dual * dl[i])
			zh[i] += float64(dual * dh[i])
		}
	}
	return x
}

// reach is the part of a step that leaves a positive figure positive.
func reach(from, step float64) float64 {
	const border = 0.99 // of the way to a bound, at most
	if step >= 0 {
		return 1
	}
	return math.Min(1, -border*from/step)
}

// pull is minus the gradient of half the sum of squares.
func (rows ringRows) pull(x, rest []float64) []float64 {
	n := len(rows)
	out := make([]float64, n)
	for i, r := range rows {
		a, b := (i+n-1)%n, (i+1)%n
		miss := float64(r[0]*x[a]) + float64(r[1]*x[i]) + float64(r[2]*x[b]) + rest[i]
		out[a] -= float64(r[0] * miss)
		out[i] -= float64(r[1] * miss)
		out[b] -= float64(r[2] * miss)
	}
	return out
}

// solve solves (rows' rows + diagonal) x = right. The ring is folded flat, so
// that neighbors across its seam stay near and the matrix is a band.
func (rows ringRows) solve(diagonal, right []float64) []float64 {
	const band = 4
	n := len(rows)
	fold := func(i int) int {
		if i = (i + n) % n; 2*i < n {
			return 2 * i
		}
		return 2*(n-1-i) + 1
	}
	m := mat.NewSymBandDense(n, band, nil)
	b := blas64.General{Rows: n, Cols: 1, Stride: 1, Data: make([]float64, n)}
	for i, r := range rows {
		at := [3]int{fold(i - 1), fold(i), fold(i + 1)}
		for p := range at {
			for q := range p + 1 {
				m.SetSymBand(at[p], at[q], m.At(at[p], at[q])+float64(r[p]*r[q]))
			}
		}
		m.SetSymBand(at[1], at[1], m.At(at[1], at[1])+diagonal[i])
		b.Data[at[1]] = right[i]
	}
	// Not mat.BandCholesky, which asks for the condition as well: a hundred times
	// the work.
	factor, ok := lapack64.Pbtrf(m.RawSymBand())
	if !ok {
		return nil
	}
	lapack64.Pbtrs(factor, b)
	out := make([]float64, n)
	for i := range out {
		out[i] = b.Data[fold(i)]
	}
	return out
}
