package duty

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"
)

// drive makes chronological states from steps of (seconds, ax) and a first speed.
func drive(v float64, steps ...[2]float64) []State {
	states := make([]State, len(steps))
	for i, s := range steps {
		states[i] = State{Seconds: s[0], V: v + s[0]*s[1]/2, Ax: s[1]}
		v += s[0] * s[1]
	}
	return states
}

// The rules are ours: below -0.3 g, releases under 0.3 s merged, a drop of 5 m/s at
// least, which counts in full from 7 m/s.
func TestBrakings(t *testing.T) {
	tests := []struct {
		name   string
		states []State
		want   []Braking
	}{
		{"nothing", nil, nil},
		{"one", drive(30, [2]float64{2, 5}, [2]float64{2, -8}, [2]float64{2, 3}),
			[]Braking{{From: 40, To: 24, Decel: 8, Start: 2, Factor: 1}}},
		{"too gentle", drive(30, [2]float64{2, 5}, [2]float64{4, -2.9}, [2]float64{2, 3}), nil},
		{"too short", drive(30, [2]float64{2, 5}, [2]float64{0.6, -8}, [2]float64{2, 3}), nil},
		{"short release", drive(30, [2]float64{2, 5}, [2]float64{1, -8}, [2]float64{0.2, 0}, [2]float64{1, -8}, [2]float64{2, 3}),
			[]Braking{{From: 40, To: 24, Decel: 16 / 2.2, Start: 2, Factor: 1}}},
		{"long release", drive(30, [2]float64{2, 5}, [2]float64{1, -8}, [2]float64{0.4, 0}, [2]float64{1, -8}, [2]float64{2, 3}),
			[]Braking{{From: 40, To: 32, Decel: 8, Start: 2, Factor: 1}, {From: 32, To: 24, Decel: 8, Start: 3.4, Factor: 1}}},
		{"across the start", drive(36, [2]float64{1, -8}, [2]float64{4, 4}, [2]float64{1, -8}),
			[]Braking{{From: 44, To: 28, Decel: 8, Start: 5, Factor: 1}}},
		{"harder as it goes", drive(32, [2]float64{2, 4}, [2]float64{0.5, -4}, [2]float64{0.5, -8}, [2]float64{2, -1}),
			[]Braking{{From: 40, To: 34, Decel: 6, Start: 2, Factor: 0.5}}},
		{"at the start", drive(36, [2]float64{1, -8}, [2]float64{4, 4}, [2]float64{8, -1}),
			[]Braking{{From: 36, To: 28, Decel: 8, Start: 0, Factor: 1}}},
		{"just long enough", drive(30, [2]float64{2, 5}, [2]float64{0.5, -10}, [2]float64{2, 3}),
			[]Braking{{From: 40, To: 35, Decel: 10, Start: 2, Factor: 0}}},
		{"just too gentle", drive(30, [2]float64{2, 5}, [2]float64{4, -heavyDecel}, [2]float64{2, 3}), nil},
	}
	for _, tt := range tests {
		if diff := cmp.Diff(tt.want, brakings(tt.states), cmpopts.EquateApprox(1e-12, 1e-12)); diff != "" {
			t.Errorf("%s: %s", tt.name, diff)
		}
	}
}

func TestBrakingsOfAnyLap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyVehicle(t)
		d := anyLap(t, v, anyCircuit(t))
		last, energy := -1.0, 0.0
		for _, b := range d.Brakings {
			if b.Start <= last || b.Start >= d.Seconds {
				t.Fatalf("starts at %g s after %g s on a lap of %g s", b.Start, last, d.Seconds)
			}
			if b.From-b.To < heavyDrop || b.Decel < heavyDecel*0.5 || b.From > d.TopSpeed*(1+1e-12) || b.To < d.MinSpeed*(1-1e-12) {
				t.Fatalf("braking %+v", b)
			}
			last = b.Start
			energy += v.BrakingEnergy(b)
		}
		// Engine braking spares the brakes some, drag by mean squares a little.
		if energy > d.BrakeEnergy*1.001 {
			t.Fatalf("brakings take %g J of %g", energy, d.BrakeEnergy)
		}
	})
}

func TestBrakingEnergy(t *testing.T) {
	const (
		pound     = 0.45359237
		mph       = 0.44704
		footPound = 1.3558179483
		btu       = 1055.05585
	)
	// A stop so short that neither drag nor engine matters.
	bare := func(lb float64) (Vehicle, Braking) {
		return Vehicle{Mass: lb * pound, Rotating: 1}, Braking{From: 60 * mph, Decel: 1e6, Factor: 1}
	}
	light, stop := bare(3000)
	heavy, _ := bare(6400)
	car := middling()
	car.DragArea = 0.65
	for _, tt := range []struct {
		name, source   string
		got, want, tol float64
	}{
		{"3000 lb from 60 mph, ft-lb", "published brake-heat notes", light.BrakingEnergy(stop) / footPound, 361306, 0.003},
		{"3000 lb from 60 mph, ft-lb", "elementary mechanics", light.BrakingEnergy(stop) / footPound, 361037, 1e-4},
		{"6400 lb from 60 mph, BTU", "published brake-heat notes", heavy.BrakingEnergy(stop) / btu, 988, 0.003},
		{"55 to 25 m/s at 0.95 g, kJ", "elementary mechanics, computed with g 9.81",
			car.BrakingEnergy(Braking{From: 55, To: 25, Decel: 0.95 * 9.81, Factor: 1}) / 1e3, 1460.1, 1e-4},
		{"half the energy", "definition of the factor",
			car.BrakingEnergy(Braking{From: 55, To: 25, Decel: 0.95 * 9.81, Factor: 0.5}) / 1e3, 730.05, 1e-4},
	} {
		if !within(tt.got, tt.want, tt.tol) {
			t.Errorf("%s (%s): %.6g, want %.6g", tt.name, tt.source, tt.got, tt.want)
		}
	}
	if got := car.BrakingEnergy(Braking{From: 30, To: 20, Factor: 1}); got != 0 {
		t.Errorf("a braking without deceleration: %g J", got)
	}
	if got := car.BrakingEnergy(Braking{From: 30, To: 20, Decel: 0.1, Factor: 1}); got != 0 {
		t.Errorf("slower than coasting, yet %g J", got)
	}
}

// Source: statics.
func TestFrontBrakeShare(t *testing.T) {
	v := Vehicle{FrontShare: 0.53, CGHeight: 0.48, Wheelbase: 2.45}
	for _, tt := range []struct{ g, want float64 }{
		{0, 0.5300}, {0.5, 0.6280}, {0.95, 0.7161},
		{3, 0.85}, {-1, 0.50}, // the clamps, ours
	} {
		if got := v.FrontBrakeShare(tt.g * G); math.Abs(got-tt.want) > 5e-5 {
			t.Errorf("%g g: %.4f, want %.4f", tt.g, got, tt.want)
		}
	}
}
