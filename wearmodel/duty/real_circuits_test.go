package duty_test

import (
	"math"
	"testing"

	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/duty/realcircuits"
)

// Source: lines of an open data set and an independent program's laps of them,
// see testdata/circuits/README.md.
func TestRealCircuits(t *testing.T) {
	v := realcircuits.Car
	for _, c := range realcircuits.All(t, "../..") {
		segs := c.Segments(t)
		d, err := duty.Simulate(v, segs, realcircuits.Pace)
		if err != nil {
			t.Fatal(err)
		}
		left, turned := 0.0, 0.0
		for _, s := range segs {
			left += math.Max(0, s.Turn)
			turned += math.Abs(s.Turn)
		}
		impulse := 0.0
		for _, s := range d.States {
			impulse += v.Mass * math.Abs(s.Ay) * s.Seconds
		}
		for _, tt := range []struct {
			name           string
			got, want, tol float64
			relative       bool
		}{
			{"length, m", d.Meters, c.Meters, 0.003, true},
			{"turning, deg", duty.Turning(segs) * 180 / math.Pi, c.Turning, 0.2, false},
			{"share by angle", left / turned, c.ShareByAngle, 0.01, false},
			{"share by load", duty.LeftShare(d), c.ShareByLoad, 0.01, false},
			{"lap, s", d.Seconds, c.Lap, 0.003, true},
			{"brake, MJ", d.BrakeEnergy / 1e6, c.Megajoule, 0.02, true},
			{"impulse, kN s/km", impulse / d.Meters, c.Impulse, 0.01, true},
			{"heavy brakings", float64(len(d.Brakings)), c.Brakings, 0, false},
		} {
			off := tt.got - tt.want
			if tt.relative {
				off /= tt.want
			}
			if math.Abs(off) > tt.tol {
				t.Errorf("%s: %s %.5g, want %.5g", c.Name, tt.name, tt.got, tt.want)
			}
			t.Logf("%s: %s %.5g, want %.5g, off %.4f", c.Name, tt.name, tt.got, tt.want, off)
		}
	}
}
