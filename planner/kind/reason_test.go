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
	if got := quantity.ChanceOver(0.0061, 0.005) + " over " + quantity.Stated(0.005); got != "0.7 % over 0.5 %" {
		t.Error(got)
	}
	for share, want := range map[float64]string{-0.3: "0 %", 0: "0 %", 0.256: "26 %", 1: "100 %"} {
		if got := quantity.Life(share); got != want {
			t.Errorf("life of %g: %q, want %q", share, got, want)
		}
	}
}

// What is found on a part is written down before it is known who reads it.
func TestBothUnits(t *testing.T) {
	for got, want := range map[string]string{
		quantity.Tread.Both(0.0015875):            "2.0/32 in (1.6 mm)",
		quantity.Distance.Both(100000 * 1609.344): "100000 mi (160934 km)",
		Pads.Measures[0].Level.Both(0.002):        "2.0 mm",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
