package learning

import (
	"math"
	"testing"
)

// Of ten cars of which three end past the limit, leaving the set is wrong in
// three cases; of seven, acting on it is.
func TestWrong(t *testing.T) {
	ends := func(past, n int) []bool {
		out := make([]bool, n)
		for k := range past {
			out[k] = true
		}
		return out
	}
	for _, c := range [][3]float64{{3, 10, 0.3}, {7, 10, 0.3}, {5, 10, 0.5}, {0, 10, 0}, {10, 10, 0}, {0, 0, 0}} {
		if got := wrongShare(ends(int(c[0]), int(c[1]))); math.Abs(got-c[2]) > 1e-12 {
			t.Errorf("%g of %g past the limit: wrong in %g, want %g", c[0], c[1], got, c[2])
		}
	}
}

// A reading that tells the worn from the sound leaves no doubt, one that does
// not leaves it as it was; where the limit is crossed before it is read it
// comes too late. 100 cases in 25 classes of four.
func TestAfterReading(t *testing.T) {
	const n = 100
	level := make([]float64, n)
	end, crossed, none := make([]bool, n), make([]bool, n), make([]bool, n)
	for k := range n {
		level[k] = float64(n - k)
		end[k] = k >= 60 // the 40 lowest levels end past the limit
		crossed[k] = k >= 75
	}
	if got := afterReading(level, none, end); got != 0 {
		t.Errorf("a reading that tells all: wrong in %g", got)
	}
	if got := afterReading(level, crossed, end); math.Abs(got-0.25) > 1e-12 {
		t.Errorf("a quarter past the limit before it is read: wrong in %g, want 0.25", got)
	}
	mixed := make([]bool, n)
	for k := range n {
		mixed[k] = k%2 == 0
	}
	if got := afterReading(level, none, mixed); math.Abs(got-0.5) > 1e-12 {
		t.Errorf("a reading that tells nothing: wrong in %g, want 0.5", got)
	}
}
