package duty

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Source: Pacejka's brush tire, computed.
func TestBrushSlipAngle(t *testing.T) {
	b := Brush{Friction: 1.1, Cornering: 0.28 / deg, Driving: 15}
	for _, tt := range []struct{ use, want float64 }{{0.3, 1.321}, {0.9, 6.290}} {
		slip, power := b.Slip(Wheel{Fz: 4000, Fy: tt.use * 1.1 * 4000}, 30)
		if got := math.Atan(slip) / deg; math.Abs(got-tt.want) > 5e-4 {
			t.Errorf("use %g: %.4f degrees, want %.3f", tt.use, got, tt.want)
		}
		if want := tt.use * 1.1 * 4000 * 30 * slip; !within(power, want, 1e-12) {
			t.Errorf("use %g: %g W, want %g", tt.use, power, want)
		}
	}
}

// Source: the brush model itself, force from slip by its cubic, which Slip inverts.
func TestBrushInverts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := Brush{
			Friction:  rapid.Float64Range(0.7, 1.5).Draw(t, "friction"),
			Cornering: rapid.Float64Range(8, 20).Draw(t, "cornering"), Driving: 15,
		}
		fz := rapid.Float64Range(500, 8000).Draw(t, "load")
		use := rapid.Float64Range(0.01, 0.97).Draw(t, "use")
		slip, _ := b.Slip(Wheel{Fz: fz, Fy: use * b.Friction * fz}, 20)
		x := b.Cornering * slip / (3 * b.Friction)
		if got := 3*x - 3*x*x + x*x*x; !within(got, use, 1e-9) {
			t.Fatalf("use %.6g, want %.6g", got, use)
		}
	})
}

func TestSlipOfNothing(t *testing.T) {
	b := Brush{Friction: 1.1, Cornering: 14, Driving: 15}
	for _, w := range []Wheel{{}, {Fz: 4000}, {Fx: 100, Fy: 100}} {
		if slip, power := b.Slip(w, 20); slip != 0 || power != 0 {
			t.Errorf("%+v: slip %g, %g W", w, slip, power)
		}
	}
	slip, power := b.Slip(Wheel{Fz: 100, Fy: 1e6}, 20) // far beyond its grip
	if math.IsInf(power, 0) || math.IsNaN(slip) || slip <= 0 {
		t.Errorf("beyond grip: slip %g, %g W", slip, power)
	}
}

// Small slips: scrub power goes with the square of the force, by any direction.
func TestSlipDirections(t *testing.T) {
	b := Brush{Friction: 1.1, Cornering: 10, Driving: 20}
	along, _ := b.Slip(Wheel{Fz: 4000, Fx: -1}, 1)
	across, _ := b.Slip(Wheel{Fz: 4000, Fy: -1}, 1)
	if !within(along, 1.0/(20*4000), 1e-3) || !within(across, 1.0/(10*4000), 1e-3) {
		t.Errorf("slip %g along, %g across", along, across)
	}
}
