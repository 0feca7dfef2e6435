package tire

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// NASA TN D-2056, Horne and Dreher 1963.
func TestFlooded(t *testing.T) {
	near(t, "20 psi, mph", Flooded(20*psi)/mph, 46.3, 1e-3)
	near(t, "30 psi, mph", Flooded(30*psi)/mph, 56.7, 1e-3)
}

func TestGallaway(t *testing.T) {
	for _, c := range []struct {
		source                       string
		spin, pressure, water, tread float64 // -, psi, in, 32nds
		want, tol                    float64 // mph
	}{
		// FHWA-RD-79-31 against a published reconstruction example, which
		// gives 51-56 and 54-59 mph for a spin-down of 10 to 100 %.
		{"reconstruction example, 2/32", 0.10, 34.5, 0.15, 2, 51.40, 2e-4},
		{"reconstruction example, 2/32", 1.00, 34.5, 0.15, 2, 56.36, 2e-4},
		{"reconstruction example, 6/32", 0.10, 34.5, 0.15, 6, 54.08, 2e-4},
		{"reconstruction example, 6/32", 1.00, 34.5, 0.15, 6, 59.30, 2e-4},
		{"FHWA-RD-79-31, computed", 0.10, 32, 0.10, 8, 55.06, 2e-4},
		{"FHWA-RD-79-31, computed", 0.10, 32, 0.10, 4, 53.15, 2e-4},
		{"FHWA-RD-79-31, computed", 0.10, 32, 0.10, 2, 51.55, 2e-4},
	} {
		got := Gallaway(c.spin, c.pressure*psi, c.tread*inch/32, c.water*inch, 0.03*inch)
		near(t, c.source, got/mph, c.want, c.tol)
	}
}

// More tread and pressure put hydroplaning off, more water brings it on;
// nothing measured makes the speed infinite.
func TestGallawayProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pressure := rapid.Float64Range(0, 50*psi).Draw(t, "pressure")
		tread := rapid.Float64Range(0, 0.01).Draw(t, "tread")
		water := rapid.Float64Range(0, 0.02).Draw(t, "water")
		texture := rapid.Float64Range(0, 0.003).Draw(t, "texture")
		base := Gallaway(0.1, pressure, tread, water, texture)
		if !(base >= 0) || math.IsInf(base, 0) {
			t.Fatalf("speed %v", base)
		}
		if Gallaway(0.1, pressure, tread+0.001, water, texture) < base ||
			Gallaway(0.1, pressure*1.1, tread, water, texture) < base ||
			Gallaway(0.1, pressure, tread, water+0.001, texture) > base {
			t.Error("hydroplaning speed does not follow tread, pressure and water")
		}
	})
}
