package duty

import (
	"errors"
	"math"
	"strings"
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
		if _, err := FitPace(v, heronFlats(), lap); err == nil || !strings.Contains(err.Error(), "not possible") {
			t.Errorf("a lap of %g s: %v", lap, err)
		}
	}
	if _, err := FitPace(v, nil, 100); err == nil {
		t.Error("no circuit passed")
	}
	if _, err := FitPace(Vehicle{}, heronFlats(), 100); err == nil {
		t.Error("no car passed")
	}
}

// Plain false position crawls on a function that is flat at one end; the
// Illinois rule takes a few steps more than on a straight line, whichever end
// is the flat one. x^10 - 1 on 0 to 1.3 is the textbook's case (Chapra and
// Canale, Numerical Methods for Engineers, from memory).
func TestRoot(t *testing.T) {
	for _, tt := range []struct {
		name       string
		f          func(float64) float64
		a, b, want float64
		calls      int
	}{
		{"straight line", func(x float64) float64 { return 3 - 2*x }, 0, 10, 1.5, 1},
		{"flat on the left", func(x float64) float64 { return 1 - math.Pow(x, 10) }, 0, 1.3, 1, 15},
		{"flat on the right", func(x float64) float64 { return math.Pow(1.3-x, 10) - 1 }, 0, 1.3, 0.3, 15},
		{"as far above as below", func(x float64) float64 { return 1 - 2*x*x*x }, 0, 1, math.Cbrt(0.5), 10},
		{"nothing to choose between", func(float64) float64 { return 0 }, 1, 3, 2, 0},
	} {
		calls := 0
		got := root(func(x float64) float64 { calls++; return tt.f(x) }, tt.a, tt.b, tt.f(tt.a), tt.f(tt.b))
		if math.Abs(got-tt.want) > 1e-9 || calls > tt.calls {
			t.Errorf("%s: %.10f after %d calls, want %.10f in %d", tt.name, got, calls, tt.want, tt.calls)
		}
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
