package kind

import (
	"testing"

	"example.com/tripwear/profiles/quantity"
)

// Chances are printed whole, half up, and never as certain; what is below its
// limit has no life left.
func TestChanceInWords(t *testing.T) {
	for p, want := range map[float64]string{
		0: "under 1 %", 0.0049: "under 1 %", 0.005: "1 %", 0.125: "13 %", 0.5: "50 %", 0.9949: "99 %", 0.995: "over 99 %", 1: "over 99 %",
	} {
		if got := quantity.Chance(p); got != want {
			t.Errorf("%g: %q, want %q", p, got, want)
		}
	}
	for share, want := range map[float64]string{-0.3: "0 %", 0: "0 %", 0.256: "26 %", 1: "100 %"} {
		if got := quantity.Life(share); got != want {
			t.Errorf("life of %g: %q, want %q", share, got, want)
		}
	}
}
