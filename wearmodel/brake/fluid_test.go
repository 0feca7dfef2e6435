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
		near(t, row.grade+" halfway", f.Boils(0.0185), (row.dry+row.wet)/2, 1e-12)
		near(t, row.grade+" old", f.Boils(f.Water(10)), row.wet, 1e-12)
		near(t, row.grade+" two years", f.Water(2), 0.03, 1e-12)
	}
}

func TestFluidHeat(t *testing.T) {
	f := Fluid{Dry: 230, Wet: 155, Uptake: 0.015, HeatThick: 0.27, HeatWorn: 0.36}
	o := Outcome{Bulk: 424}
	near(t, "thick pads", f.Temperature(o, 24, 0), 24+108+15, 1e-12)
	near(t, "worn pads", f.Temperature(o, 24, 1), 24+144+15, 1e-12)
	near(t, "fresh fluid", f.Reserve(o, 24, 0, 0), 230-147, 1e-12)
	near(t, "not driven", f.Temperature(Outcome{Bulk: 24}, 24, 0), 24, 0)
	if f.Reserve(o, 24, 1, 3) >= f.Reserve(o, 24, 0, 3) || f.Reserve(o, 24, 0, 3) >= f.Reserve(o, 24, 0, 1) {
		t.Error("worn pads or old fluid leave no less in reserve")
	}
}

func TestWorn(t *testing.T) {
	for _, row := range []struct{ now, want float64 }{{0.011, 0}, {0.012, 0}, {0.0065, 0.5}, {0.002, 1}, {0.001, 1}} {
		near(t, "worn", Worn(row.now, 0.011, 0.002), row.want, 1e-9)
	}
	near(t, "new pads at their limit", Worn(0.002, 0.002, 0.002), 1, 0)
}
