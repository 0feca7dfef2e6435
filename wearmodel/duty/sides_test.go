package duty

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestLeftShare(t *testing.T) {
	for _, tt := range []struct {
		name   string
		states []State
		want   float64
	}{ // by definition
		{"no turning", []State{{Seconds: 5, V: 30}}, 0.5},
		{"nothing", nil, 0.5},
		{"all left", []State{{Seconds: 5, V: 30, Ay: 4}}, 1},
		{"all right", []State{{Seconds: 5, V: 30, Ay: -4}}, 0},
		{"by load and time", []State{{Seconds: 1, Ay: 6}, {Seconds: 4, Ay: -0.5}}, 0.75},
	} {
		if got := LeftShare(Duty{States: tt.states}); got != tt.want {
			t.Errorf("%s: %g, want %g", tt.name, got, tt.want)
		}
	}
}

// TestOneSided: all load in left turns, or none, and a duty that has no corner or
// that is looked at after stays as it is.
func TestOneSided(t *testing.T) {
	d := Duty{States: []State{{Seconds: 1, V: 20, Ay: 6}, {Seconds: 4, V: 30, Ay: -0.5}, {Seconds: 9, V: 40}}, Seconds: 14}
	for side, want := range map[float64]float64{1: 1, -1: 0} {
		one := d.OneSided(side)
		if got := LeftShare(one); got != want || one.States[2].Ay != 0 || one.Seconds != 14 || math.Abs(one.States[1].Ay) != 0.5 {
			t.Errorf("to %g: a share of %g, %+v", side, got, one.States)
		}
	}
	if LeftShare(d) != 0.75 {
		t.Errorf("the duty itself was changed: %+v", d.States)
	}
}

// Source: closed form, sum of angle times root of radius. Drag costs a corner
// 0.1 % of its speed, and the cells that join a corner are at its limit too.
func TestLeftShareOfARealLap(t *testing.T) {
	eight := []Segment{corner(300, 270, 90), corner(300, -270, 40)}
	for _, pace := range []float64{0.65, 0.9} {
		d, err := Simulate(middling(), eight, pace)
		if err != nil {
			t.Fatal(err)
		}
		if got := LeftShare(d); math.Abs(got-0.6) > 0.002 {
			t.Errorf("pace %g: %.4f, want 0.6", pace, got)
		}
	}
}

// A corner to the other side exchanges left and right wheels exactly.
func TestMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyVehicle(t)
		d := anyLap(t, v, anyCircuit(t))
		share := LeftShare(d)
		for i, s := range d.States {
			there := v.Loads(s)
			s.Ay = 0 - s.Ay
			d.States[i] = s
			back := v.Loads(s)
			for _, p := range Places {
				want := there[p]
				want.Fy = -want.Fy
				if back[p.Mirror()] != want {
					t.Fatalf("%v: %+v, want %+v", p, back[p.Mirror()], want)
				}
			}
		}
		if got, want := LeftShare(d), 1-share; math.Abs(got-want) > 1e-12 {
			t.Fatalf("left share %g, want %g", got, want)
		}
	})
}

// By definition: two places on each side and each axle, the mirror across.
func TestPlaces(t *testing.T) {
	left := map[Place]bool{LF: true, LR: true}
	front := map[Place]bool{LF: true, RF: true}
	for _, p := range Places {
		if p.Left() != left[p] || p.Front() != front[p] || p.Mirror().Left() == p.Left() || p.Mirror().Front() != p.Front() {
			t.Errorf("%v: left %v, front %v, mirrored %v", p, p.Left(), p.Front(), p.Mirror())
		}
	}
}
