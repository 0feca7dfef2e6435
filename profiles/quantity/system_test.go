package quantity

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestShow(t *testing.T) {
	for _, c := range []struct {
		name       string
		us, metric string
		of         func(System) string
	}{
		{"distance", "612 mi", "985 km", func(s System) string { return s.Distance(612 * mile) }},
		{"tread", "5.2/32 in", "4.1 mm", func(s System) string { return s.Tread(0.0041275) }},
		{"pad", "6.4 mm", "6.4 mm", func(s System) string { return s.Pad(0.0064) }},
		{"thickness", "21.85 mm", "21.85 mm", func(s System) string { return s.Thickness(0.02185) }},
		{"temperature", "68 F", "20 C", func(s System) string { return s.Temperature(20) }},
		{"just below 0", "32 F", "0 C", func(s System) string { return s.Temperature(-0.2) }},
		{"speed", "55 mph", "89 km/h", func(s System) string { return s.Speed(24.6) }},
		{"fuel", "15.9 gal", "60 L", func(s System) string { return s.FuelVolume(0.060) }},
		{"oil", "5.1 qt", "4.8 L", func(s System) string { return s.OilVolume(0.0048) }},
		{"mass", "3053 lb", "1385 kg", func(s System) string { return s.Mass(1385) }},
		{"boot", "180 L", "180 L", func(s System) string { return s.BootVolume(0.18) }},
		{"lap", "1:51.2", "1:51.2", func(s System) string { return s.Lap(111.18) }},
		{"lap that rounds up", "2:00.0", "2:00.0", func(s System) string { return s.Lap(119.96) }},
		{"short lap", "0:09.5", "0:09.5", func(s System) string { return s.Lap(9.5) }},
		{"hours", "1.5 h", "1.5 h", func(s System) string { return s.Hours(5400) }},
		{"percent", "53 %", "53 %", func(s System) string { return s.Percent(0.53) }},
		{"unit", "F", "C", System.TemperatureUnit},
	} {
		if got := c.of(US); got != c.us {
			t.Errorf("%s, us: got %q, want %q", c.name, got, c.us)
		}
		if got := c.of(Metric); got != c.metric {
			t.Errorf("%s, metric: got %q, want %q", c.name, got, c.metric)
		}
	}
	if got := US.Degrees(638, 10); got != 1180 {
		t.Errorf("638 C to the nearest 10 F: %g", got)
	}
	if got := Metric.Degrees(638, 10); got != 640 {
		t.Errorf("638 C to the nearest 10 C: %g", got)
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
		back, err := Parse[Length](s.Tread(depth))
		if err != nil || back < depth-5e-5 || back > depth+5e-5 { // half of 0.1/32 in or of 0.1 mm
			t.Fatalf("%v shows as %s, reads as %v, %v", depth, s.Tread(depth), back, err)
		}
		lap := Duration(rapid.Float64Range(0, 5e4).Draw(t, "lap"))
		seconds, err := Parse[Duration](s.Lap(lap))
		if err != nil || seconds < lap-0.0501 || seconds > lap+0.0501 || strings.Contains(s.Lap(lap), ":60") {
			t.Fatalf("%v shows as %s, reads as %v, %v", lap, s.Lap(lap), seconds, err)
		}
	})
}
