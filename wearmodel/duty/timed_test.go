package duty

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// unsure knows neither the driver nor the circuit.
var unsure = Usual{Pace: 0.80, PaceSD: 0.15, SpeedSD: 0.05}

// Whatever is known beforehand, the lap takes the time asked for, and what is
// known stays as it is.
func TestTimedKeepsTheLapTime(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, s := anyVehicle(t), anySummary(t)
		d, err := FromSummary(v, reference(), s)
		if err != nil {
			t.Fatal(err)
		}
		asked := s
		asked.Pace = 0
		usual := rapid.SampledFrom([]Usual{unsure, {Pace: s.Pace}, {Pace: 0.80, PaceSD: 1}}).Draw(t, "usual")
		got, err := asked.Timed(v, reference(), d.Seconds, usual)
		if err != nil {
			t.Fatal(err)
		}
		again, err := FromSummary(v, reference(), got.Summary)
		if err != nil {
			t.Fatal(err)
		}
		if !within(again.Seconds, d.Seconds, 1e-6) {
			t.Fatalf("%.9g s at %+v, want %.9g", again.Seconds, got, d.Seconds)
		}
		size := math.Max(s.Size, s.Size+1-math.Ceil(s.Size)) // 1 where it is 0
		if s.Size == 0 {
			size = 1
		}
		switch {
		case usual.PaceSD == 0 && got.Pace != math.Exp(math.Log(s.Pace)):
			t.Fatalf("pace %g, want %g", got.Pace, s.Pace)
		case usual.SpeedSD == 0 && !within(got.Size, size, 1e-4) && got.Size != size && usual.PaceSD > 0:
			t.Fatalf("size %g, want %g", got.Size, size)
		case got.Pace < slowestFit*0.999 || got.Pace > fastestFit*1.001:
			t.Fatalf("pace %g", got.Pace)
		}
	})
}

// A lap a tenth faster than usual: of its logarithm the pace explains
// (0.45 x 0.15)^2 / ((0.45 x 0.15)^2 + 0.05^2) = 0.646, the circuit the rest.
// By hand.
func TestTimedShares(t *testing.T) {
	v, s := middling(), Summary{Meters: 4080, LeftShare: 0.5, Pace: 0.80}
	usual, err := FromSummary(v, reference(), s)
	if err != nil {
		t.Fatal(err)
	}
	got, err := s.Timed(v, reference(), usual.Seconds/1.1, unsure)
	if err != nil {
		t.Fatal(err)
	}
	if circuit := math.Log(1.1) * (1 - 0.646); math.Abs(math.Log(1+got.Faster)-circuit) > 0.004 {
		t.Errorf("a circuit %.3f faster, want about %.3f", got.Faster, circuit)
	}
	if pace := 0.80 * math.Pow(1.1, 0.646/0.45); !within(got.Pace, pace, 0.02) {
		t.Errorf("a pace of %.3f, want about %.3f", got.Pace, pace)
	}
	if got.Held {
		t.Error("the pace is held")
	}
}

// A lap time that no pace gives on a usual circuit is taken from the circuit,
// and one that no circuit gives is refused with what is possible.
func TestTimedOutOfReach(t *testing.T) {
	v, s := middling(), Summary{Meters: 3500, LeftShare: 0.75, HeavyBrakings: 9}
	fast, err := s.Timed(v, reference(), 78, unsure)
	if err != nil || !fast.Held || !within(fast.Pace, fastestFit, 1e-9) || fast.Faster < 0.05 {
		t.Errorf("78 s: %+v, %v", fast, err)
	}
	slow, err := s.Timed(v, reference(), 220, unsure)
	if err != nil || !slow.Held || !within(slow.Pace, slowestFit, 1e-9) || slow.Faster > -0.05 {
		t.Errorf("220 s: %+v, %v", slow, err)
	}
	for _, tt := range []struct {
		lap  float64
		says string
	}{
		{20, "a lap of 20 s is out of reach"}, {900, "a lap of 900 s is out of reach"},
		{0, "a lap time of 0 s"}, {math.NaN(), "a lap time of NaN s"}, {math.Inf(1), "a lap time of +Inf s"},
	} {
		if _, err := s.Timed(v, reference(), tt.lap, unsure); err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%v, want one that says %q", err, tt.says)
		}
	}
	_, err = s.Timed(v, reference(), 20, unsure)
	var reach *LapTimeError
	if !errors.As(err, &reach) {
		t.Fatal(err)
	}
	for lap, within := range map[float64]bool{
		reach.Fastest * 1.0001: true, reach.Slowest * 0.9999: true,
		reach.Fastest * 0.9999: false, reach.Slowest * 1.0001: false,
	} {
		if _, err := s.Timed(v, reference(), lap, unsure); (err == nil) != within {
			t.Errorf("a lap of %g s: %v", lap, err)
		}
	}
	if _, err := (Summary{}).Timed(v, reference(), 100, unsure); err == nil {
		t.Error("a summary of nothing is taken")
	}
}
