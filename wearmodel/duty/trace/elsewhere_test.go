package trace_test

import (
	"math"
	"testing"

	"example.com/tripwear/wearmodel/duty/trace"
	"example.com/tripwear/wearmodel/duty/trace/synthetic"
)

// A recording of two circuits gives the one with more laps, and says how long a
// lap of the other is; out and in laps and the pits are no other circuit.
func TestTwoCircuits(t *testing.T) {
	here := record(t, heronFlats(), synthetic.Day{Rate: 2, White: 1, Drift: 2, Laps: 6}, 5)
	there := record(t, circuits(t)["figure-eight"], synthetic.Day{Rate: 2, White: 1, Drift: 2, Laps: 3, Lat: 58.4, Lon: 8.1}, 6)
	lap, err := trace.Survey(here)
	if err != nil || lap.Elsewhere != 0 {
		t.Errorf("one circuit: %v, another of %.0f m", err, lap.Elsewhere)
	}
	later := here[len(here)-1].Time + 1800 - there[0].Time
	for _, f := range there {
		f.Time += later
		here = append(here, f)
	}
	want := lapOf(t, circuits(t)["figure-eight"]).Meters
	two, err := trace.Survey(here)
	if err != nil || math.Abs(two.Elsewhere/want-1) > 0.05 || math.Abs(two.Meters/lap.Meters-1) > 1e-3 {
		t.Errorf("two circuits: %v, %.0f m and another of %.0f, want %.0f and %.0f", err, two.Meters, two.Elsewhere, lap.Meters, want)
	}
}

// Laps the other way round are told: four minutes of a lap a minute, then six
// minutes back, by hand three whole ones and five.
func TestLapsTheOtherWay(t *testing.T) {
	const radius, lap = 300.0, 60.0
	var fixes []trace.Fix
	for i := range 600 {
		at := float64(i)
		if i >= 240 {
			at = 480 - at
		}
		sin, cos := math.Sincos(2 * math.Pi * at / lap)
		lat, lon := globe(50, 8, radius*cos, 0.6*radius*sin)
		fixes = append(fixes, trace.Fix{Time: float64(i), Lat: lat, Lon: lon})
	}
	got, err := trace.Survey(fixes)
	if err != nil || got.LeftShare > 0.01 || got.Against < 3 || got.Against > 4 || len(got.Used) < 4 {
		t.Errorf("%v: left share %.2f, %d laps used, %d the other way", err, got.LeftShare, len(got.Used), got.Against)
	}
	if one, err := trace.Survey(fixes[:240]); err != nil || one.Against != 0 || one.LeftShare < 0.99 {
		t.Errorf("one way alone: %v, %d the other way, left share %.2f", err, one.Against, one.LeftShare)
	}
}

// A fix a second of a car at one speed on an oval of 20 km, without noise: on
// straights every row lies between its neighbors, and yet none is made up.
func TestFixesOnStraights(t *testing.T) {
	const radius, straight, speed = 800.0, 7486.0, 55.0
	per := 2*straight + 2*math.Pi*radius
	var fixes []trace.Fix
	for i := range int(3.2 * per / speed) {
		s := math.Mod(speed*float64(i), per)
		half := s > per/2
		s = math.Mod(s, per/2)
		x, y := s, 0.0
		if s > straight {
			sin, cos := math.Sincos((s - straight) / radius)
			x, y = straight+radius*sin, radius*(1-cos)
		}
		if half {
			x, y = straight-x, 2*radius-y
		}
		lat, lon := globe(50, 8, x, y)
		fixes = append(fixes, trace.Fix{Time: float64(i), Lat: lat, Lon: lon})
	}
	lap, err := trace.Survey(fixes)
	if err != nil || math.Abs(lap.Meters/per-1) > 1e-3 || lap.LeftShare < 0.99 {
		t.Errorf("%v: %.0f m, left share %.3f, want %.0f and 1", err, lap.Meters, lap.LeftShare, per)
	}
}
