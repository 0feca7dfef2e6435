package tire

import (
	"testing"

	"pgregory.net/rapid"
)

func TestLimits(t *testing.T) {
	// 49 CFR 570.9, from memory, and Directive 89/459/EEC.
	near(t, "wear bar, mm", WearBar*1000, 1.5875, 1e-12)
	if WearBar >= LegalEU || LegalEU >= RainDepth {
		t.Error("the American bar is below the European limit, both below the depth for rain")
	}
}

// Published retail test table, by way of a secondary source.
func TestWetStop(t *testing.T) {
	const foot = 12 * inch
	for thirtySeconds, feet := range map[float64]float64{10: 234, 6: 253, 4: 282, 2: 356} {
		near(t, "wet stop, ft", WetStop(thirtySeconds*inch/32)/foot, feet, 1e-9)
	}
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(-0.001, 0.012).Draw(t, "a")
		b := rapid.Float64Range(-0.001, 0.012).Draw(t, "b")
		if a < b && WetStop(a) < WetStop(b) {
			t.Errorf("%v m of tread stops shorter than %v m", a, b)
		}
	})
}
