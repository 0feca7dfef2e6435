package brake

import (
	"testing"

	"gonum.org/v1/gonum/floats/scalar"

	"example.com/tripwear/wearmodel/duty"
)

// The car and parts of the tests: an invented light rear-drive car on
// street-performance pads.
func car() duty.Vehicle {
	return duty.Vehicle{
		Mass: 1385, FrontShare: 0.53, Wheelbase: 2.51, TrackFront: 1.49, TrackRear: 1.50, CGHeight: 0.48,
		Power: 172 * 745.7, DragArea: 0.66, RollFront: 0.58, Friction: 1,
		Rolling: 0.013, AirDensity: 1.20, Driveline: 0.87, Rotating: 1.04,
	}
}

func pad(area float64) Pad {
	return Pad{Wear: 30e-15, Threshold: 300, Activation: 3600, MaxBulk: 600, RotorWear: 8e-15, Area: area}
}

func front() Axle {
	return Axle{
		Pad:   pad(4500e-6),
		Rotor: Rotor{RingMass: 7.0, Area: 0.20, FaceArea: 0.0425, RadiatingArea: 0.10, Vented: true, Crack: 1},
		Front: true,
	}
}

func rear() Axle {
	return Axle{
		Pad:   pad(3000e-6),
		Rotor: Rotor{RingMass: 4.5, Area: 0.11, FaceArea: 0.035, RadiatingArea: 0.09, Crack: 1},
	}
}

// lap is a circuit lap of three brakings, worked out by hand.
func lap() duty.Duty {
	return duty.Duty{
		Seconds: 120, Meters: 3500,
		Brakings: []duty.Braking{
			{From: 45, To: 22, Decel: 8, Start: 20, Factor: 1},
			{From: 40, To: 25, Decel: 7.5, Start: 55, Factor: 1},
			{From: 48, To: 18, Decel: 8, Start: 100, Factor: 1},
		},
	}
}

// near fails where got is further from want than the tolerance, relative to want.
func near(t *testing.T, what string, got, want, rel float64) {
	t.Helper()
	if !scalar.EqualWithinAbsOrRel(got, want, 1e-12, rel) {
		t.Errorf("%s: got %.6g, want %.6g within %.2g %%", what, got, want, 100*rel)
	}
}
