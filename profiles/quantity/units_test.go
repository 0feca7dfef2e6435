package quantity

import (
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"pgregory.net/rapid"
)

// Every kind of measure, for what holds of all.
var kinds = []*Kind{
	lengths, masses, volumes, areas, durations, speeds, powers, pressures, forces, temperatures,
	angles, shares, stiffnesses, economies, wears, energies, numbers, moneys, Offset, Difference,
}

// NIST SP 811 (2008), appendix B.8, to the digits printed there; a factor
// printed in bold there is exact.
func TestFactors(t *testing.T) {
	for _, c := range []struct {
		kind *Kind
		text string
		want float64
		rel  float64
	}{
		{lengths, "1 mi", 1609.344, 0},
		{lengths, "1 ft", 0.3048, 1e-15},
		{lengths, "1 in", 0.0254, 0},
		{masses, "1 lb", 0.45359237, 0},
		{volumes, "1 gal", 3.785411784e-3, 0},
		{volumes, "1 qt", 9.463529e-4, 1e-7},
		{volumes, "1 cu ft", 2.831685e-2, 2e-7},
		{areas, "1 in2", 6.4516e-4, 1e-15},
		{areas, "1 ft2", 9.290304e-2, 1e-15},
		{powers, "1 hp", 745.69987, 1e-8},
		{powers, "1 PS", 735.4988, 1e-7}, // "metric"
		{pressures, "1 psi", 6894.757, 1e-7},
		{forces, "1 lbf", 4.448222, 1e-7},
		{speeds, "1 mph", 0.44704, 1e-15},
		{angles, "1 deg", 1.745329e-2, 1e-6},
		{angles, "1 min", 2.908882e-4, 1e-6},
		{economies, "1 mpg", 4.251437e5, 1e-7}, // 0.4251437 km/L
		// 235.215/mpg is L/100 km in the same appendix
		{economies, "235.215 L/100km", 4.251437e5, 3e-6},
		{temperatures, "212 F", 100, 1e-12},
		{temperatures, "-40 F", -40, 1e-12},
		{temperatures, "273.15 K", 0, 0},
	} {
		got, _, err := c.kind.Parse(c.text)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		if !scalar.EqualWithinAbsOrRel(got, c.want, 1e-12*boolFloat(c.want == 0 || c.kind == temperatures), c.rel+1e-15) {
			t.Errorf("%s: got %.10g, want %.10g", c.text, got, c.want)
		}
	}
}

func boolFloat(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// A number written in any unit comes back when its SI value is turned back.
func TestRoundTrip(t *testing.T) {
	for _, k := range kinds {
		t.Run(k.Name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				x := rapid.Float64Range(0.001, 1e6).Draw(t, "x")
				if k.Signed && k != temperatures && rapid.Bool().Draw(t, "minus") {
					x = -x
				}
				text, unit := strconv.FormatFloat(x, 'f', -1, 64), Unit{}
				if len(k.Units) > 0 {
					unit = rapid.SampledFrom(k.Units).Draw(t, "unit")
					text += rapid.SampledFrom([]string{" ", "", "  "}).Draw(t, "gap") + unit.Name
				}
				v, parsed, err := k.Parse(text)
				if err != nil {
					t.Fatalf("%q: %v", text, err)
				}
				if parsed != unit {
					t.Fatalf("%q: unit %q", text, parsed.Name)
				}
				back := v
				if unit.Name != "" {
					back = unit.Of(v)
				}
				// adding 459.67 to reach kelvin loses three digits at 0.001
				if !scalar.EqualWithinAbsOrRel(back, x, 1e-12, 1e-9) {
					t.Fatalf("%q: SI %g comes back as %g", text, v, back)
				}
			})
		})
	}
}

// Turning any unit into any other of its kind and back changes nothing.
func TestUnitsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(kinds[:len(kinds)-4]).Draw(t, "kind")
		a, b := rapid.SampledFrom(k.Units).Draw(t, "a"), rapid.SampledFrom(k.Units).Draw(t, "b")
		x := rapid.Float64Range(1, 1e4).Draw(t, "x")
		if back := a.Of(b.SI(b.Of(a.SI(x)))); !scalar.EqualWithinRel(back, x, 1e-9) {
			t.Fatalf("%g %s in %s and back: %g", x, a.Name, b.Name, back)
		}
	})
}

func TestParse(t *testing.T) {
	for _, c := range []struct {
		kind *Kind
		text string
		want float64
	}{
		{lengths, "6/32 in", 0.0047625},
		{lengths, "5.5/32 in", 0.00436563},
		{lengths, "1/8 in", 0.003175},
		{lengths, "612mi", 984918.5},
		{durations, "1:51", 111},
		{durations, "1:51.4", 111.4},
		{durations, "0:59.123", 59.123},
		{durations, "1 day", 86400},
		{durations, "5 days", 432000},
		{shares, "53 %", 0.53},
		{shares, "53%", 0.53},
		{stiffnesses, "0.25 /deg", 14.3239},
		{stiffnesses, "0.25/deg", 14.3239},
		{wears, "20 mm3/MJ", 20e-15},
		{wears, "6.5mm3/kJ", 6.5e-12},
		{energies, "0.03 MJ/km", 30},
		{economies, "11 km/L", 1.1e7},
		{temperatures, "-12 C", -12},
		{Difference, "3600 K", 3600},
		{Difference, "36 F", 20},
		{Offset, "-5 mm", -0.005},
		{lengths, "143900 Miles", 231584601.6},
		{lengths, "5mm", 0.005},
		{lengths, "5 MM", 0.005},
		{lengths, `6.5/32"`, 0.00515938},
		{lengths, "6.5/32 ”", 0.00515938},
		{lengths, "0.25 inches", 0.00635},
		{lengths, "0.25 in.", 0.00635},
		{lengths, "12 kilometres", 12000},
		{pressures, "32psi", 220632},
		{pressures, "32 PSI", 220632},
		{pressures, "2.2bar", 220000},
		{pressures, "2.2 Bar", 220000},
		{temperatures, "212 °F", 100},
		{temperatures, "100 deg C", 100},
		{volumes, "5 litres", 0.005},
		{volumes, "2 cuft", 0.0566337},
		{economies, "9 l/100 km", 1.11111e7},
		{speeds, "90 kph", 25},
		{numbers, ".5", 0.5},
		{numbers, "+2.", 2},
		{moneys, "165", 165},
	} {
		got, _, err := c.kind.Parse(c.text)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
		} else if !scalar.EqualWithinAbsOrRel(got, c.want, 0, 1e-5) {
			t.Errorf("%s: got %g, want %g", c.text, got, c.want)
		}
	}
}

// No spelling of a unit is taken for another of its kind, and each is of some kind.
func TestSpoken(t *testing.T) {
	used := map[string]bool{}
	for _, k := range kinds {
		for _, name := range append(slices.Collect(maps.Keys(spoken)), k.names()...) {
			var named []string
			for _, u := range k.Units {
				if u.named(name) {
					named, used[name] = append(named, u.Name), true
				}
			}
			if len(named) > 1 {
				t.Errorf("%s: %q is %v", k.Name, name, named)
			}
		}
	}
	for name := range spoken {
		if !used[name] {
			t.Errorf("%q is of no kind", name)
		}
	}
}

func TestParseTyped(t *testing.T) {
	if v, err := Parse[Length]("1 km"); v != 1000 || err != nil {
		t.Errorf("%v, %v", v, err)
	}
	_, err := Parse[Length]("143200")
	if err == nil || err.Error() != "143200 has no unit: write 143200 mi or 143200 km" {
		t.Errorf("%v", err)
	}
	_, err = Parse[Economy]("0 L/100km")
	if err == nil || err.Error() != "0 L/100km is not possible, expected more than 0 L/100km" {
		t.Errorf("%v", err)
	}
}

func TestRefused(t *testing.T) {
	for _, text := range []string{
		"", " ", "km", "NaN km", "Inf km", "-inf km", "+Inf km", "1,5 km", "1_000 km", "0x1p4 km", "1e3 km", "1E+3 km",
		"1..5 km", "1.2.3 km", "--1 km", "1- km", "1/2/3 in", "1/0 in", "/2 in", "-1 km", "1 knm", "1 kn", "5 ft 6 in", "km 1",
		strings.Repeat("9", 400) + " km", "1 km km", "١ km", "1 km\x00",
	} {
		if v, _, err := lengths.Parse(text); err == nil {
			t.Errorf("%q reads as %g", text, v)
		}
	}
	for _, text := range []string{"1:60", "1:5", ":51", "1:51:00", "-1:51", "1:51.4444444", "99999:00", "1: 51"} {
		if v, _, err := durations.Parse(text); err == nil {
			t.Errorf("%q reads as %g", text, v)
		}
	}
}

func TestTurn(t *testing.T) {
	for text, want := range map[string]float64{"90 deg left": math.Pi / 2, "180 deg right": -math.Pi, "90deg left": math.Pi / 2} {
		got, err := ParseTurn(text)
		if err != nil || !scalar.EqualWithinAbs(float64(got), want, 1e-12) {
			t.Errorf("%s: %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"90 deg", "left", "90 left", "-90 deg left", "90 deg up", ""} {
		if v, err := ParseTurn(text); err == nil {
			t.Errorf("%q reads as %v", text, v)
		}
	}
}

func TestSessions(t *testing.T) {
	for text, want := range map[string]float64{"5 x 20 min": 1200, "5x20 min": 1200, " 4 x 25:00 ": 1500} {
		_, each, err := ParseSessions(text)
		if err != nil || float64(each) != want {
			t.Errorf("%s: %v, %v", text, each, err)
		}
	}
	for _, text := range []string{"five", "5 x", "x 20 min", "5 x 20", "0 x 20 min", "5 x -20 min", "5.5 x 20 min"} {
		if n, each, err := ParseSessions(text); err == nil {
			t.Errorf("%q reads as %d of %v", text, n, each)
		}
	}
}

func TestFormat(t *testing.T) {
	lb := Unit{Name: "lb", scale: pound}
	for _, c := range []struct{ got, want string }{
		{lb.Format(0), "0 lb"}, {lb.Format(5000), "11020 lb"}, {lb.Format(0.001), "0.002205 lb"}, {Unit{}.Format(2), "2"},
	} {
		if c.got != c.want {
			t.Errorf("got %s, want %s", c.got, c.want)
		}
	}
}

// Nothing that anybody writes makes a number that is none, and what is
// refused says why.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"6/32 in", "1:51.4", "5 x 20 min", "90 deg left", "-40 F", "9 L/100km", "53 %", "0x1p-2 mi", "1e999 km", "NaN", "٣ km"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, k := range kinds {
			v, _, err := k.Parse(s)
			if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 && !k.Signed {
				t.Fatalf("%s %q reads as %g", k.Name, s, v)
			}
			if err != nil && (err.What == "" || v != 0) {
				t.Fatalf("%s %q: %g, %q", k.Name, s, v, err.What)
			}
		}
		if v, err := ParseTurn(s); math.IsNaN(float64(v)) || err != nil && err.Error() == "" {
			t.Fatalf("turn %q", s)
		}
		if n, each, err := ParseSessions(s); err == nil && (n <= 0 || !(each >= 0)) {
			t.Fatalf("sessions %q: %d of %v", s, n, each)
		}
	})
}
