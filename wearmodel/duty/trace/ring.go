package trace

import (
	"math"
)

// band is how far the rows of a ring reach to either side.
const band = 3

// ring is a symmetric positive definite system whose unknowns stand in a
// circle, each tied to its three neighbors on either side: at[k][i] is the
// element of row i and column i+k, counted round.
type ring struct {
	at [band + 1][]float64
}

func newRing(n int) *ring {
	r := &ring{}
	for k := range r.at {
		r.at[k] = make([]float64, n)
	}
	return r
}

func (r *ring) clear() {
	for k := range r.at {
		clear(r.at[k])
	}
}

// addRow adds weight times the square of a row: the coefficients of the
// unknowns from first on, counted round.
func (r *ring) addRow(first int, weight float64, row [band + 1]float64) {
	n := len(r.at[0])
	for a := range row {
		i := first + a
		if i >= n {
			i -= n
		}
		for k := 0; a+k < len(row); k++ {
			r.at[k][i] += float64(weight * row[a] * row[a+k])
		}
	}
}

// solve overwrites each right-hand side with its solution. The last three
// unknowns are split off, which leaves a band for Cholesky and a system of
// three for what closes the circle.
func (r *ring) solve(sides ...[]float64) {
	n := len(r.at[0])
	m := n - band
	// The border: columns m, m+1, m+2 over rows 0 to m-1.
	var border [band][]float64
	for c := range border {
		border[c] = make([]float64, m)
	}
	var corner [band][band]float64
	for k := range r.at {
		for i := max(0, m-k); i < n; i++ {
			j := i + k
			switch {
			case i < m && j < n:
				border[j-m][i] += r.at[k][i]
			case j < n:
				corner[i-m][j-m] = r.at[k][i]
				corner[j-m][i-m] = r.at[k][i]
			case i >= m:
				border[i-m][j-n] += r.at[k][i]
			}
		}
	}
	low := r.cholesky(m)
	var solved [band][]float64 // the band's answers to the border
	for c := range border {
		solved[c] = append([]float64(nil), border[c]...)
		low.substitute(solved[c])
		for d := range border {
			corner[d][c] -= dot(border[d], solved[c])
		}
	}
	for _, side := range sides {
		low.substitute(side[:m])
		var rest [band]float64
		for c := range rest {
			rest[c] = side[m+c] - dot(border[c], side[:m])
		}
		rest = solveThree(corner, rest)
		for c := range rest {
			side[m+c] = rest[c]
			for i, v := range solved[c] {
				side[i] -= float64(v * rest[c])
			}
		}
	}
}

// lower is a Cholesky factor of a band: [i][k] is the element of row i and
// column i-k, and [i][0] the inverse of the diagonal one.
type lower [][band + 1]float64

// cholesky factors the first m rows without what goes round.
func (r *ring) cholesky(m int) lower {
	low := make(lower, m)
	for i := range low {
		for k := min(band, i); k >= 0; k-- {
			j := i - k
			sum := r.at[k][j]
			for q := k + 1; q <= min(band, i); q++ {
				if q-k <= band {
					sum -= float64(low[i][q] * low[j][q-k])
				}
			}
			if k == 0 {
				low[i][0] = 1 / math.Sqrt(sum)
			} else {
				low[i][k] = sum * low[j][0]
			}
		}
	}
	return low
}

func (low lower) substitute(b []float64) {
	for i := range low {
		sum := b[i]
		for k := 1; k <= min(band, i); k++ {
			sum -= float64(low[i][k] * b[i-k])
		}
		b[i] = sum * low[i][0]
	}
	for i := len(low) - 1; i >= 0; i-- {
		sum := b[i]
		for k := 1; k <= band && i+k < len(low); k++ {
			sum -= float64(low[i+k][k] * b[i+k])
		}
		b[i] = sum * low[i][0]
	}
}

// solveThree is Cramer's rule.
func solveThree(a [band][band]float64, b [band]float64) [band]float64 {
	det := func(m [band][band]float64) float64 {
		return float64(m[0][0]*(float64(m[1][1]*m[2][2])-float64(m[1][2]*m[2][1]))) -
			float64(m[0][1]*(float64(m[1][0]*m[2][2])-float64(m[1][2]*m[2][0]))) +
			float64(m[0][2]*(float64(m[1][0]*m[2][1])-float64(m[1][1]*m[2][0])))
	}
	all := det(a)
	var out [band]float64
	for c := range out {
		m := a
		for i := range m {
			m[i][c] = b[i]
		}
		out[c] = det(m) / all
	}
	return out
}

func dot(a, b []float64) float64 {
	s := 0.0
	for i := range a {
		s += float64(a[i] * b[i])
	}
	return s
}
