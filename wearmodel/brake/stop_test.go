package brake

import (
	"testing"

	"example.com/tripwear/wearmodel/duty"
)

// Statics of a rigid body, computed.
func TestShare(t *testing.T) {
	v := car()
	v.FrontShare, v.CGHeight, v.Wheelbase = 0.53, 0.48, 2.45
	for _, row := range []struct{ g, front float64 }{{0, 0.5300}, {0.5, 0.6280}, {0.95, 0.7161}} {
		share := v.FrontBrakeShare(row.g * duty.G)
		near(t, "front", front().share(share), row.front, 1e-4)
		near(t, "rear", rear().share(share), 1-row.front, 2e-4)
	}
}

// Heat conduction into a thick body: 2 MW/m2 falling to 0 in 4 s; Limpert's
// printed form with 0.527 gives 160.1 K (from memory).
func TestFluxRise(t *testing.T) {
	near(t, "at 2 s", fluxRise(2e6, 2, 4), 161.6, 3e-4)
	near(t, "against the printed form", fluxRise(2e6, 2, 4), 160.1, 0.01)
}

// A stop from speed to rest spreads its heat as a flux that falls to nothing,
// so that 4 MJ/m2 over 4 s is the 2 MW/m2 of the row above.
func TestSurfaceRise(t *testing.T) {
	b := duty.Braking{From: 32, To: 0, Decel: 8, Factor: 1}
	near(t, "to rest", surfaceRise(b, 4e6), 161.6, 3e-4)
	// Let go at half the speed, after 2 s of the 4, three quarters of that heat
	// have gone in, and the face is as hot as above. By hand.
	half := duty.Braking{From: 32, To: 16, Decel: 8, Factor: 1}
	near(t, "to half the speed", surfaceRise(half, 3e6), 161.6, 3e-4)
	// Let go after 1 s, before the face is hottest: 1 (1 - 1/6) of the root law
	// against sqrt(2) (1 - 1/3), with 2 MW/m2 (1 - 1/8) of heat. By hand.
	short := duty.Braking{From: 32, To: 24, Decel: 8, Factor: 1}
	near(t, "to three quarters", surfaceRise(short, 1.75e6), 142.84, 3e-4)
}

// The parts of a lap's energy add up to the brakes' whole, and the pauses to
// the lap time: conservation.
func TestStopsAddUp(t *testing.T) {
	v, d := car(), lap()
	f, r := front().stops(v, d), rear().stops(v, d)
	var pause float64
	for i, b := range d.Brakings {
		near(t, "energy", 2*(f[i].energy+r[i].energy), v.BrakingEnergy(b), 1e-12)
		pause += f[i].cool
	}
	near(t, "pauses", pause, d.Seconds, 1e-12)
}
