package oil

import (
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"pgregory.net/rapid"
)

// usualHeat are the figures of the stock profile: engineering choices.
func usualHeat(power float64) Heat { return Heat{Power: power, Rise: 100, Most: 132} }

// Oil temperatures on circuit as read in published track tests: within two of
// the 12 K that the model says it may be off by.
func TestHeatAgainstReadings(t *testing.T) {
	const advanced, cooled = 0.90, 15.0
	for _, row := range []struct {
		source               string
		power, ambient, want float64 // W, deg C
		cooling              float64
	}{
		{"track test of a roadster", 177e3, 29, 133, 0},
		{"track test, with a cooler", 210e3, 21, 113, cooled},
		{"track test, with a cooler", 248e3, 21, 121, cooled},
		{"track test, over 130", 377e3, 21, 132, cooled},
	} {
		h := usualHeat(row.power)
		h.Cooling = row.cooling
		got := h.On(row.ambient, advanced)
		t.Logf("%s, %.0f kW: %.0f deg C, read %.0f", row.source, row.power/1e3, got, row.want)
		if !scalar.EqualWithinAbs(got, row.want, 24) {
			t.Errorf("%s, %.0f kW: %.0f deg C, read %.0f", row.source, row.power/1e3, got, row.want)
		}
	}
	near(t, "150 kW at 25 deg C and a pace of 0.80", usualHeat(150e3).On(25, 0.80), 125, 1e-12)
}

// A hot day, a strong engine and a quick driver heat the oil, a cooler cools
// it, a gauge ends the guessing, and no guess is hot enough to condemn a fill.
func TestHeatProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		power := rapid.Float64Range(50e3, 500e3).Draw(t, "power")
		ambient := rapid.Float64Range(-20, 45).Draw(t, "ambient")
		pace := rapid.Float64Range(0.4, 1).Draw(t, "pace")
		h := usualHeat(power)
		got := h.On(ambient, pace)
		if Spent(got) || got < ambient {
			t.Errorf("%g deg C", got)
		}
		if h.On(ambient+14, pace) < got || usualHeat(2*power).On(ambient, pace) < got || h.On(ambient, pace*1.05) < got {
			t.Error("it falls with the air, the power or the pace")
		}
		cooled, read := h, h
		cooled.Cooling, read.Gauge = 15, 121
		if cooled.On(ambient, pace) > got || read.On(ambient, pace) != 121 {
			t.Error("a cooler warms, or a gauge is not heard")
		}
	})
}
