package oil

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The worked examples of ASTM D2270, procedure A and procedure B, which round
// to whole numbers.
func TestIndexExamples(t *testing.T) {
	for _, row := range []struct{ at40, at100, want float64 }{
		{73.30, 8.86, 92},  // procedure A
		{22.83, 5.05, 156}, // procedure B
	} {
		got, ok := Index(row.at40, row.at100)
		if !ok || math.Round(got) != row.want {
			t.Errorf("%g at 40, %g at 100: index %.2f, %v, want %.0f", row.at40, row.at100, got, ok, row.want)
		}
	}
}

// Rows of ASTM D2270, table 1, against the parabolas: at the ends of every
// stretch and within. The table has three or four digits; 0 where a row's L is
// not at hand.
func TestReferenceOils(t *testing.T) {
	for _, row := range []struct{ y, l, h float64 }{
		{2.0, 7.994, 6.394}, {3.8, 0, 17.97}, {4.4, 0, 22.92}, {5.0, 0, 28.49}, {6.4, 0, 42.14},
		{7.1, 80.25, 49.61}, {7.7, 93.20, 56.20}, {8.0, 100.0, 59.60}, {10.0, 147.7, 82.87},
		{12.0, 201.9, 108.0}, {15.0, 296.5, 149.7}, {18.0, 408.6, 196.2}, {20.0, 493.2, 229.5},
		{22.0, 585.2, 264.9}, {26.0, 790.4, 340.5}, {28.0, 904.1, 380.6}, {30.0, 1023, 421.7},
		{40.0, 1730, 651.8}, {50.0, 2618, 919.6}, {55.0, 3126, 1066}, {70.0, 4905, 1558},
	} {
		l, h := reference(row.y)
		const tableRounds = 1.2e-3
		near(t, "H", h, row.h, tableRounds)
		if row.l != 0 {
			near(t, "L", l, row.l, tableRounds)
		}
	}
}

// By definition the reference oils have the indexes 0 and 100, and the two
// procedures meet at 100.
func TestIndexOfReferenceOils(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y := rapid.Float64Range(2, 100).Draw(t, "at 100")
		l, h := reference(y)
		zero, _ := Index(l, y)
		hundred, _ := Index(h, y)
		above, _ := Index(h*(1-1e-9), y)
		if math.Abs(zero) > 1e-6 || math.Abs(hundred-100) > 1e-6 || math.Abs(above-100) > 1e-4 {
			t.Errorf("L has %g, H has %g, just thinner than H %g", zero, hundred, above)
		}
	})
}

func TestIndexRefuses(t *testing.T) {
	for _, row := range [][2]float64{{10, 1.9}, {5, 5}, {4, 6}} {
		if vi, ok := Index(row[0], row[1]); ok {
			t.Errorf("%g at 40, %g at 100: index %g", row[0], row[1], vi)
		}
	}
}
