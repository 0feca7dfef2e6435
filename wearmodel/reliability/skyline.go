package reliability

import (
	"math"
)

// skyline is a symmetric or lower triangular matrix of which each row is kept
// from the first column that may hold something up to the diagonal. A Cholesky
// factor has the skyline of its matrix.
type skyline struct {
	first []int
	rows  [][]float64
}

// newSkyline is one of zeros.
func newSkyline(first []int) skyline {
	m := skyline{first: first, rows: make([][]float64, len(first))}
	size := 0
	for i, f := range first {
		size += i - f + 1
	}
	cells := make([]float64, size)
	for i, f := range first {
		n := i - f + 1
		m.rows[i], cells = cells[:n:n], cells[n:]
	}
	return m
}

// cell is a place within the skyline, on either side of the diagonal.
func (m skyline) cell(i, j int) *float64 {
	if i < j {
		i, j = j, i
	}
	return &m.rows[i][j-m.first[i]]
}

// factorize gives the lower Cholesky factor of the matrix with its diagonal
// times lift, and whether there is one.
func (m skyline) factorize(lift float64) (skyline, bool) {
	l := newSkyline(m.first)
	for i, row := range l.rows {
		first := m.first[i]
		copy(row, m.rows[i])
		for j := first; j < i; j++ {
			above, from := l.rows[j], max(first, m.first[j])
			row[j-first] = (row[j-first] - dot(row[from-first:j-first], above[from-m.first[j]:])) / above[len(above)-1]
		}
		left := float64(row[i-first]*lift) - dot(row[:i-first], row)
		if !(left > 0) {
			return l, false
		}
		row[i-first] = math.Sqrt(left)
	}
	return l, true
}

// dot is the sum of the products of x with as many of y, in four strands that
// do not wait for one another.
func dot(x, y []float64) float64 {
	y = y[:len(x)]
	var a, b, c, d float64
	for len(x) >= 4 && len(y) >= 4 {
		a += float64(x[0] * y[0])
		b += float64(x[1] * y[1])
		c += float64(x[2] * y[2])
		d += float64(x[3] * y[3])
		x, y = x[4:], y[4:]
	}
	for i, v := range x {
		a += float64(v * y[i])
	}
	return a + b + c + d
}

// forward solves L x = b in place for a factor L.
func (m skyline) forward(b []float64) {
	for i, row := range m.rows {
		last := len(row) - 1
		b[i] = (b[i] - dot(row[:last], b[m.first[i]:])) / row[last]
	}
}

// backward solves L' x = b in place.
func (m skyline) backward(b []float64) {
	for i := len(b) - 1; i >= 0; i-- {
		row, first := m.rows[i], m.first[i]
		b[i] /= row[i-first]
		for j, v := range row[:i-first] {
			b[first+j] -= float64(v * b[i])
		}
	}
}

// inverse is that of L L' within the skyline, worked out from the last row up
// (Takahashi, Fagan and Chin 1973): what lies outside is never needed for it.
func (m skyline) inverse() skyline {
	n := len(m.rows)
	below := make([][]int32, n) // by column, the rows that hold it
	for i, first := range m.first {
		for j := first; j < i; j++ {
			below[j] = append(below[j], int32(i))
		}
	}
	z := newSkyline(m.first)
	var column []float64
	for j := n - 1; j >= 0; j-- {
		column = column[:0]
		for _, i := range below[j] {
			column = append(column, *m.cell(int(i), j))
		}
		pivot, own := *m.cell(j, j), 0.0
		for a, i := range below[j] {
			sum := 0.0
			for b, k := range below[j] {
				sum += float64(column[b] * *z.cell(int(i), int(k)))
			}
			*z.cell(int(i), j) = -sum / pivot
			own -= float64(column[a] * sum / pivot)
		}
		*z.cell(j, j) = (1/pivot - own) / pivot
	}
	return z
}
