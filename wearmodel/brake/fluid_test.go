package brake

import (
	"testing"
)

// Boiling points of the grades, dry and at 3.70 % water: FMVSS 116 (49 CFR 571.116).
func TestBoils(t *testing.T) {
	for _, row := range []struct {
		grade    string
		dry, wet float64
	}{{"DOT 3", 205, 140}, {"DOT 4", 230, 155}, {"DOT 5.1", 260, 180}} {
		f := Fluid{Dry: row.dry, Wet: row.wet, Uptake: 0.015}
		near(t, row.grade+" dry", f.Boils(0), row.dry, 0)
		near(t, row.grade+" wet", f.Boils(0.0370), row.wet, 1e-12)
		near(t, row.grade+" old", f.Boils(f.Water(10)), row.wet, 1e-12)
	}
}

// The boiling point of a DOT 3 fluid falls fastest with the first water, and a
// fill takes its water up fastest at first. Published curves, secondary source.
func TestWetting(t *testing.T) {
	f := Fluid{Dry: 205, Wet: 140, Uptake: 0.02}
	for water, boils := range map[float64]float64{0.01: 187, 0.02: 160, 0.03: 145} {
		near(t, "boils", f.Boils(water), boils, 0.004)
	}
	for years, water := range map[float64]float64{0: 0, 1: 0.02, 1.5: 0.03, 2.2: 0.037, 3.5: 0.05} {
		near(t, "water", f.Water(years), water, 1e-12)
		near(t, "years", f.Years(water), years, 1e-12)
	}
}

// One caliper boils the circuit, whichever it is: thin pads at one wheel count
// with their own rotor's heat.
func TestHottestCaliper(t *testing.T) {
	f := Fluid{Dry: 230, Wet: 155, HeatThick: 0.27, HeatWorn: 0.36}
	fresh := f.Hottest([2]float64{424, 324}, 24, [4]float64{})
	near(t, "front, thick pads", fresh, 24+108+15, 1e-12)
	for p, want := range []float64{24 + 144 + 15, 24 + 144 + 15, 24 + 108 + 15, 24 + 108 + 15} {
		var worn [4]float64
		worn[p] = 1
		near(t, "one wheel's pads at their limit", f.Hottest([2]float64{424, 324}, 24, worn), want, 1e-12)
	}
}

func TestFluidHeat(t *testing.T) {
	f := Fluid{Dry: 230, Wet: 155, Uptake: 0.015, HeatThick: 0.27, HeatWorn: 0.36}
	o := Outcome{Bulk: 424}
	near(t, "thick pads", f.Temperature(o, 24, 0), 24+108+15, 1e-12)
	near(t, "worn pads", f.Temperature(o, 24, 1), 24+144+15, 1e-12)
	near(t, "not driven", f.Temperature(Outcome{Bulk: 24}, 24, 0), 24, 0)
}

func TestWorn(t *testing.T) {
	for _, row := range []struct{ now, want float64 }{{0.011, 0}, {0.012, 0}, {0.0065, 0.5}, {0.002, 1}, {0.001, 1}} {
		near(t, "worn", Worn(row.now, 0.011, 0.002), row.want, 1e-9)
	}
	near(t, "new pads at their limit", Worn(0.002, 0.002, 0.002), 1, 0)
}
