package duty

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestFitPaceFindsThePace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyVehicle(t)
		segs := anyCircuit(t)
		pace := rapid.Float64Range(0.4, 1.05).Draw(t, "pace")
		d, err := Simulate(v, segs, pace)
		if err != nil {
			t.Fatal(err)
		}
		got, err := FitPace(v, segs, d.Seconds)
		if err != nil && pace > 0.4001 && pace < 1.0499 {
			t.Fatal(err)
		}
		if err == nil && !within(got, pace, 1e-6) {
			t.Fatalf("pace %.9g, drove at %.9g", got, pace)
		}
	})
}

func TestFitPaceOutOfReach(t *testing.T) {
	v := middling()
	slow, err := Simulate(v, heronFlats(), 0.40)
	if err != nil {
		t.Fatal(err)
	}
	fast, err := Simulate(v, heronFlats(), 1.05)
	if err != nil {
		t.Fatal(err)
	}
	for _, lap := range []float64{60, 300} {
		_, err := FitPace(v, heronFlats(), lap)
		var reach *LapTimeError
		if !errors.As(err, &reach) {
			t.Fatalf("a lap of %g s: %v", lap, err)
		}
		if !within(reach.Slowest, slow.Seconds, 1e-9) || !within(reach.Fastest, fast.Seconds, 1e-9) {
			t.Errorf("says %v, want %g to %g s", err, slow.Seconds, fast.Seconds)
		}
	}
	for _, lap := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if _, err := FitPace(v, heronFlats(), lap); err == nil {
			t.Errorf("a lap of %g s passed", lap)
		}
	}
	if _, err := FitPace(v, nil, 100); err == nil {
		t.Error("no circuit passed")
	}
	if _, err := FitPace(Vehicle{}, heronFlats(), 100); err == nil {
		t.Error("no car passed")
	}
}

func BenchmarkFitPace(b *testing.B) {
	v, segs := middling(), heronFlats()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := FitPace(v, segs, 115); err != nil {
			b.Fatal(err)
		}
	}
}
