package duty

import (
	"math"
	"testing"
)

func TestRoad(t *testing.T) {
	v := middling()
	v.Mass = 1560
	d := v.Road(Surface{Speed: 31, BrakeEnergy: 30e3})
	// Elementary mechanics: drag and rolling over a kilometer at 31 m/s.
	resistance := 1.20*0.66/2*31*31 + 0.013*1560*G
	for _, tt := range []struct {
		name      string
		got, want float64
	}{
		{"meters", d.Meters, 1000},
		{"seconds", d.Seconds, 1000.0 / 31},
		{"brake, J", d.BrakeEnergy, 36e3},
		{"drive, J", d.DriveEnergy, resistance*1000 + 36e3},
		{"top speed", d.TopSpeed, 31},
		{"lowest speed", d.MinSpeed, 31},
		{"left share", LeftShare(d), 0.5},
		{"states", float64(len(d.States)), 1},
		{"brakings", float64(len(d.Brakings)), 0},
	} {
		if math.Abs(tt.got-tt.want) > 1e-9*math.Abs(tt.want) {
			t.Errorf("%s: %g, want %g", tt.name, tt.got, tt.want)
		}
	}
	if d := v.Road(Surface{}); len(d.States) != 0 || d.Seconds != 0 || d.Meters != 1000 {
		t.Errorf("a surface without a speed: %+v", d)
	}
}
