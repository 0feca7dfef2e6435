package duty

import (
	"math"
	"testing"
)

// The rule is ours: (S - 2.6 T)/T.
func TestSessionLaps(t *testing.T) {
	for _, tt := range []struct {
		session, lap float64
		want         float64
	}{
		{1200, 124.4, 7.0463}, // whole, ten sessions made 70 hot laps in an independent program
		{560, 100, 3}, {559, 100, 2.99},
		{360, 100, 1}, {359, 100, 0.99}, {260, 100, 0}, {100, 100, 0}, {0, 100, 0}, {-5, 100, 0},
		{1200, 0, 0}, {1200, -1, 0}, {1200, math.NaN(), 0}, {math.NaN(), 100, 0},
		{math.Inf(1), 100, math.MaxInt32}, {1200, math.Inf(1), 0},
	} {
		if got := SessionLaps(tt.session, tt.lap); math.Abs(got-tt.want) > 1e-4 {
			t.Errorf("%g s of %g s laps: %g, want %g", tt.session, tt.lap, got, tt.want)
		}
	}
}

// A lap to cool down takes 1.3 hot laps.
func TestHotLaps(t *testing.T) {
	for _, tt := range []struct {
		slow int
		want float64
	}{{0, 10}, {2, 7.4}, {3, 6.1}, {9, 0}} {
		if got := HotLaps(1000, 100, tt.slow); math.Abs(got-tt.want) > 1e-12 {
			t.Errorf("%d slow laps leave %g hot ones, want %g", tt.slow, got, tt.want)
		}
	}
}
