package duty

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Statics: at the limit of a driven axle, its load times friction is the force.
func TestTractionIsConsistentWithLoads(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyVehicle(t)
		pace := rapid.Float64Range(0.4, 1.05).Draw(t, "pace")
		l, err := v.limits(pace)
		if err != nil {
			t.Fatal(err)
		}
		w := v.Loads(State{V: 20, Ax: l.driving})
		load := 0.0
		for i, wheel := range w {
			front := Place(i).Front()
			if v.Drive == AllDrive || front == (v.Drive == FrontDrive) {
				load += wheel.Fz
			}
		}
		if want := pace * v.Friction * load / v.Mass; !within(l.driving, want, 1e-12) {
			t.Fatalf("traction %.6g m/s2, the driven wheels carry %.6g", l.driving, want)
		}
	})
}

func TestTopSpeedHoldsItsOwn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyVehicle(t)
		v.DragArea = rapid.SampledFrom([]float64{0, 0.3, 0.66, 1.2}).Draw(t, "drag area")
		l, err := v.limits(0.9)
		if err != nil {
			t.Fatal(err)
		}
		top := l.topSpeed()
		need := v.TractiveForce(State{V: top}) * top
		if have := 0.87 * 0.9 * v.Power; !within(need, have, 1e-9) {
			t.Fatalf("%.6g W at %.4g m/s, the engine gives %.6g", need, top, have)
		}
	})
}

func TestVehicleCheck(t *testing.T) {
	for _, tt := range []struct {
		change func(*Vehicle)
		says   string
	}{
		{func(v *Vehicle) { *v = Vehicle{} }, "mass (kg) is 0"},
		{func(v *Vehicle) { v.Mass = math.NaN() }, "mass (kg) is NaN"},
		{func(v *Vehicle) { v.Power = math.Inf(1) }, "power (W) is +Inf"},
		{func(v *Vehicle) { v.FrontShare = 53 }, "front share of weight is 53"},
		{func(v *Vehicle) { v.Rotating = 0 }, "rotating mass factor is 0"},
		{func(v *Vehicle) { v.Power = 100 }, "cannot get going"},
		{func(v *Vehicle) { v.Rolling, v.DragArea = 0, 0 }, "neither air drag nor"},
		{func(v *Vehicle) { v.Rolling, v.AirDensity = 0, 0 }, "neither air drag nor"},
	} {
		v := middling()
		tt.change(&v)
		if _, err := Simulate(v, heronFlats(), 0.9); err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("error %v, want one that says %q", err, tt.says)
		}
	}
	for _, pace := range []float64{0, -1, 0.19, 1.31, math.NaN(), math.Inf(1)} {
		if _, err := Simulate(middling(), heronFlats(), pace); err == nil {
			t.Errorf("a pace of %g passed", pace)
		}
	}
}

// What a message calls the range is inside it, both ends.
func TestRangesIncludeTheirEnds(t *testing.T) {
	least := Vehicle{Mass: 100, FrontShare: 0.05, Wheelbase: 0.5, Power: 1, DragArea: 0, Friction: 0.1, Rolling: 0.01, AirDensity: 0, Driveline: 0.1, Rotating: 1}
	most := Vehicle{Mass: 20000, FrontShare: 0.95, Wheelbase: 20, CGHeight: 5, Power: 1e7, DragArea: 20, Friction: 5, Rolling: 0.05, AirDensity: 2, Driveline: 1, Rotating: 2}
	for _, v := range []Vehicle{least, most} {
		if err := v.check(); err != nil {
			t.Error(err)
		}
	}
	for _, pace := range []float64{0.2, 1.3} {
		if _, err := Simulate(middling(), heronFlats(), pace); err != nil {
			t.Error(err)
		}
	}
}
