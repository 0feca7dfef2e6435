package duty

import (
	"math"
	"testing"
)

// The rule is ours: floor((S - 2.6 T)/T).
func TestSessionLaps(t *testing.T) {
	for _, tt := range []struct {
		session, lap float64
		want         int
	}{
		{1200, 124.4, 7}, // ten sessions made 70 hot laps in an independent program
		{560, 100, 3},    // to the second
		{559.9, 100, 2},
		{360, 100, 1}, {359, 100, 0}, {100, 100, 0}, {0, 100, 0}, {-5, 100, 0},
		{1200, 0, 0}, {1200, -1, 0}, {1200, math.NaN(), 0}, {math.NaN(), 100, 0},
		{math.Inf(1), 100, math.MaxInt32}, {1200, math.Inf(1), 0},
	} {
		if got := SessionLaps(tt.session, tt.lap); got != tt.want {
			t.Errorf("%g s of %g s laps: %d, want %d", tt.session, tt.lap, got, tt.want)
		}
	}
}

// A lap to cool down takes 1.3 hot laps.
func TestHotLaps(t *testing.T) {
	for _, tt := range []struct{ slow, want int }{{0, 10}, {2, 7}, {3, 6}, {9, 0}} {
		if got := HotLaps(1000, 100, tt.slow); got != tt.want {
			t.Errorf("%d slow laps leave %d hot ones, want %d", tt.slow, got, tt.want)
		}
	}
}
