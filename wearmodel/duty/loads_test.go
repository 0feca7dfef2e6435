package duty

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Source: Barton and Fieldhouse, Automotive Chassis Engineering, p. 174, to 1 %.
// The book splits the transfer into masses at their own heights; each is a
// rigid body, and so is this model, one body at a time. Its roll gradient and
// roll centers belong to the suspension, of which this model has only the
// front share.
func TestLoadTransferOfOneMass(t *testing.T) {
	const sprung = 1280
	for _, tt := range []struct {
		name               string
		mass, height, want float64
	}{
		{"front, through the roll center", sprung * 0.54, 0.07, 195},
		{"rear, through the roll center", sprung * 0.46, 0.32, 760},
		{"front unsprung", 140, 0.280, 158},
		{"rear unsprung", 180, 0.300, 218},
	} {
		v := Vehicle{Mass: tt.mass, FrontShare: 0.5, Wheelbase: 2.5, TrackFront: 1.46, TrackRear: 1.46, CGHeight: tt.height}
		for _, front := range []float64{0, 0.55, 1} {
			v.RollFront = front
			w := v.Loads(State{V: 20, Ay: 0.6 * 9.81})
			transfer := (w[RF].Fz-w[LF].Fz)/2 + (w[RR].Fz-w[LR].Fz)/2
			if !within(transfer, tt.want, 0.01) {
				t.Errorf("%s, %g in front: %.1f N, want %g", tt.name, front, transfer, tt.want)
			}
		}
	}
}

// Statics: forces and moments about both axes balance while no wheel lifts.
func TestLoadsAreInEquilibrium(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyVehicle(t)
		s := State{
			V:  rapid.Float64Range(0, 70).Draw(t, "v"),
			Ax: rapid.Float64Range(-9, 5).Draw(t, "ax"),
			Ay: rapid.Float64Range(-10, 10).Draw(t, "ay"),
		}
		w := v.Loads(s)
		var fz, fx, fy float64
		for _, x := range w {
			if x.Fz < 0 || math.IsNaN(x.Fx) || math.IsNaN(x.Fy) {
				t.Fatalf("wheel %+v", x)
			}
			fz, fx, fy = fz+x.Fz, fx+x.Fx, fy+x.Fy
		}
		weight := v.Mass * G
		air := v.AirDensity * v.DragArea / 2 * s.V * s.V
		if math.Abs(fz-weight) > 1e-9*weight || math.Abs(fy-v.Mass*s.Ay) > 1e-9*weight ||
			math.Abs(fx-v.Mass*s.Ax-air-v.Rolling*weight) > 1e-9*weight {
			t.Fatalf("sums %g %g %g N", fx, fy, fz)
		}
		pitch := (w[LR].Fz + w[RR].Fz) - weight*(1-v.FrontShare)
		if math.Abs(pitch*v.Wheelbase-v.Mass*s.Ax*v.CGHeight) > 1e-9*weight {
			t.Fatalf("pitch moment %g Nm", pitch*v.Wheelbase)
		}
		roll := (w[RF].Fz-w[LF].Fz)/2*v.TrackFront + (w[RR].Fz-w[LR].Fz)/2*v.TrackRear
		if !v.Lifts(s) && math.Abs(roll-v.Mass*s.Ay*v.CGHeight) > 1e-9*weight {
			t.Fatalf("roll moment %g Nm", roll)
		}
	})
}

func TestLiftedWheel(t *testing.T) {
	v := middling()
	v.CGHeight, v.RollFront = 0.9, 0.9
	s := State{V: 20, Ay: 9}
	w := v.Loads(s)
	if !v.Lifts(s) || w[LF].Fz != 0 {
		t.Errorf("the inside front wheel should be up: %+v", w[LF])
	}
	if want := v.Mass * G * v.FrontShare; !within(w[RF].Fz, want, 1e-12) {
		t.Errorf("the outside front wheel carries %.0f N, want %.0f", w[RF].Fz, want)
	}
	if w[LF].Fy != 0 || w[LF].Fx != 0 {
		t.Errorf("a wheel in the air pushes: %+v", w[LF])
	}
}

// Standing still, a car has its wheels on the ground.
func TestNoWheelLifts(t *testing.T) {
	if v := middling(); v.Lifts(State{}) {
		t.Errorf("lifts a wheel standing still: %+v", v.Loads(State{}))
	}
}

func TestDrivenWheels(t *testing.T) {
	v := middling()
	s := State{V: 20, Ax: 3}
	for _, tt := range []struct {
		drive       Drive
		front, rear bool
	}{{RearDrive, false, true}, {FrontDrive, true, false}, {AllDrive, true, true}} {
		v.Drive = tt.drive
		for i, w := range v.Loads(s) {
			if want := tt.front && Place(i).Front() || tt.rear && !Place(i).Front(); (w.Fx > 0) != want {
				t.Errorf("drive %d, %v: %g N", tt.drive, Place(i), w.Fx)
			}
		}
	}
}
