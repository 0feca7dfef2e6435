package brake

import (
	"testing"

	"example.com/tripwear/wearmodel/duty"
)

// highway is a kilometer of highway: 0.03 MJ at 1,300 kg.
func highway(v duty.Vehicle) duty.Duty {
	return duty.Duty{Meters: 1000, Seconds: 1000 / 31.0, BrakeEnergy: 0.03e6 * v.Mass / 1300}
}

// Front pads over 612 highway miles: 0.030 mm, from an independent program
// (2 %, as it prints two digits).
func TestRoadPads(t *testing.T) {
	v := car()
	got := Road(v, front(), highway(v), 612*1609.344)
	near(t, "front pads, mm", 1e3*got.PadMean, 0.030, 0.02)
	near(t, "thinnest", got.PadThinnest, 1.25*got.PadMean, 1e-12)
}

// Both axles' rotors share the road's energy: conservation.
func TestRoadEnergy(t *testing.T) {
	v := car()
	d := highway(v)
	f, r := Road(v, front(), d, 5000), Road(v, rear(), d, 5000)
	near(t, "energy", 2*(f.Energy+r.Energy), 5*d.BrakeEnergy, 1e-12)
	if f.Crack != 0 || f.Thickness <= 0 {
		t.Errorf("road braking: %+v", f)
	}
	if got := Road(v, front(), duty.Duty{}, 1000); got != (Outcome{}) {
		t.Errorf("no duty: %+v", got)
	}
}
