package quantity

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestShow by hand, from the factors of NIST SP 811, appendix B.
func TestShow(t *testing.T) {
	for _, c := range []struct {
		name       string
		of         Shown
		si         float64
		us, metric string
	}{
		{"distance", Distance, 612 * 1609.344, "612 mi", "985 km"},
		{"hundreds", Hundreds, 2.5e6, "16 hundred miles", "25 hundred km"},
		{"lap length", LapLength, 3500, "2.17 mi", "3.50 km"},
		{"radius", Ground, 60, "197 ft", "60 m"},
		{"fixes", FixSpread, 1.26, "4 ft", "1.3 m"},
		{"drift", Drift, 0.0149, "79 ft/mi", "15 m/km"},
		{"speed", Velocity, 24.6, "55 mph", "89 km/h"},
		{"tread", Tread, 0.0041275, "5.2/32 in", "4.1 mm"},
		{"a rule's tread", TreadRule, 4 * 0.0254 / 32, "4/32 in", "3.2 mm"},
		{"pad", Pad, 0.0064, "6.4 mm", "6.4 mm"},
		{"thickness", Thickness, 0.02185, "21.85 mm", "21.85 mm"},
		{"water", Water, 0.00254, "0.10 in", "2.5 mm"},
		{"fuel", Fuel, 0.060, "15.9 gal", "60 L"},
		{"oil", OilFill, 0.0048, "5.1 qt", "4.8 L"},
		{"boot", Boot, 0.18, "6.36 cu ft", "180 L"},
		{"mass", Weight, 1385, "3053 lb", "1385 kg"},
		{"wheel load", WheelLoad, 4000, "899 lb", "408 kg"},
		{"temperature", Heat, 20, "68 F", "20 C"},
		{"just below 0", Heat, -0.2, "32 F", "0 C"},
		{"difference", Warmth, 20, "36 F", "20 K"},
		{"pressure", Inflation, 14000, "2 psi", "0.14 bar"},
		{"turn", TurnAngle, 1.5708, "90 deg", "90 deg"},
		{"camber", Camber, -0.0454, "-2.6 deg", "-2.6 deg"},
		{"braking", Slowing, 9.80665, "1.00 g", "1.00 g"},
		{"heat of a braking", BrakeHeat, 412300, "412 kJ", "412 kJ"},
		{"percent", Percent, 0.53, "53 %", "53 %"},
	} {
		if us, metric := c.of[US].Text(c.si), c.of[Metric].Text(c.si); us != c.us || metric != c.metric {
			t.Errorf("%s: got %q and %q, want %q and %q", c.name, us, metric, c.us, c.metric)
		}
	}
	for _, c := range []struct{ name, got, want string }{
		{"range", Tread[US].Range(0.004, 0.005), "5.0-6.3/32 in"},
		{"range in mm", Pad[US].Range(0.004, 0.005), "4.0-5.0 mm"},
		{"heading", Tread[US].Words + ", " + Tread[Metric].Words, "32nds of an inch, mm"},
		{"change", Camber[US].Change(0.0044), "+0.3 deg"},
		{"figures", Tread[US].Figures(1e-5, 2), "0.013/32 in"},
		{"nearest 10 F", Heat[US].Nearest(638, 10), "1180"},
		{"nearest 10 C", Heat[Metric].Nearest(638, 10), "640"},
		{"lap", Lap(111.18), "1:51.2"},
		{"lap that rounds up", Lap(119.96), "2:00.0"},
		{"short lap", Lap(9.5), "0:09.5"},
	} {
		if c.got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, c.got, c.want)
		}
	}
}

func TestParseSystem(t *testing.T) {
	for _, s := range []System{US, Metric} {
		if got, err := ParseSystem(s.String()); got != s || err != nil {
			t.Errorf("%v: %v, %v", s, got, err)
		}
	}
	_, err := ParseSystem("metrc")
	if err == nil || err.Error() != `unknown units "metrc" (did you mean "metric"?), expected us or metric` {
		t.Errorf("%v", err)
	}
}

// What is shown in a unit that people write can be read again.
func TestShownCanBeRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom([]System{US, Metric}).Draw(t, "system")
		depth := Length(rapid.Float64Range(0, 0.02).Draw(t, "depth"))
		back, err := Parse[Length](Tread[s].Text(float64(depth)))
		if err != nil || back < depth-5e-5 || back > depth+5e-5 { // half of 0.1/32 in or of 0.1 mm
			t.Fatalf("%v shows as %s, reads as %v, %v", depth, Tread[s].Text(float64(depth)), back, err)
		}
		lap := Duration(rapid.Float64Range(0, 5e4).Draw(t, "lap"))
		seconds, err := Parse[Duration](Lap(float64(lap)))
		if err != nil || seconds < lap-0.0501 || seconds > lap+0.0501 || strings.Contains(Lap(float64(lap)), ":60") {
			t.Fatalf("%v shows as %s, reads as %v, %v", lap, Lap(float64(lap)), seconds, err)
		}
	})
}

// What is under a limit never reads like the limit, and else as it is.
func TestBothUnder(t *testing.T) {
	const limit = 2e-3
	for si, want := range map[float64]string{
		1e-3:     "1.0 mm",
		1.98e-3:  "1.9 mm",
		limit:    "2.0 mm",
		0.794e-3: "0.8 mm",
	} {
		if got := Pad.BothUnder(si, limit); got != want {
			t.Errorf("%g m is %s, want %s", si, got, want)
		}
	}
}
