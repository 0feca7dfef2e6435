package brake

import (
	"testing"
)

// The sum's own references: 5,000 brakings of 200 K at 500 deg C, 150 cycles
// of 525 K (SAE J2928).
func TestCrackReferences(t *testing.T) {
	near(t, "brakings", 5000*crackStop(200, 500), 1, 1e-12)
	near(t, "cycles", 150*crackCycle(525), 1, 1e-12)
	near(t, "past melting", crackStop(200, 5000), crackStop(200, melts), 0)
}

// What an inspection finds overrides the forecast for the worse only. Common
// practice, no source.
func TestLook(t *testing.T) {
	for _, row := range []struct {
		look           Look
		forecast, want float64
	}{
		{Smooth, 0.4, 0.4}, {HeatChecks, 0.4, 0.4},
		{Catches, 0.4, 0.9}, {Catches, 0.95, 0.95},
		{EdgeCrack, 0.4, 1}, {EdgeCrack, 1.2, 1.2},
	} {
		if got := row.look.Damage(row.forecast); got != row.want {
			t.Errorf("look %d at %.2f: got %.2f, want %.2f", row.look, row.forecast, got, row.want)
		}
	}
}
