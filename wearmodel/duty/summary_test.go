package duty

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The reference lap's own figures must give the reference lap back.
func TestSummaryOfTheReferenceLap(t *testing.T) {
	v := middling()
	lap, err := Simulate(v, reference(), 0.9)
	if err != nil {
		t.Fatal(err)
	}
	got, err := FromSummary(v, reference(), Summary{Meters: lap.Meters, LeftShare: LeftShare(lap), Pace: 0.9})
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		name           string
		got, want, tol float64
	}{
		{"lap, s", got.Seconds, lap.Seconds, 1e-12},
		{"brake, J", got.BrakeEnergy, lap.BrakeEnergy, 1e-12},
		{"drive, J", got.DriveEnergy, lap.DriveEnergy, 1e-3}, // its lopsidedness costs 0.3 % of its turning
		{"brakings", float64(len(got.Brakings)), float64(len(lap.Brakings)), 0},
		{"factor", got.Brakings[0].Factor, 1, 1e-12},
	} {
		if !within(tt.got, tt.want, tt.tol) {
			t.Errorf("%s: %.9g, want %.9g", tt.name, tt.got, tt.want)
		}
	}
}

// anySummary draws a summary whose lap time the car can drive.
func anySummary(t *rapid.T) Summary {
	s := Summary{
		Meters:    rapid.Float64Range(1000, 8000).Draw(t, "meters"),
		LeftShare: rapid.OneOf(rapid.Float64Range(0, 1), rapid.SampledFrom([]float64{0, 0.5, 1})).Draw(t, "left share"),
		Pace:      rapid.Float64Range(0.45, 1.0).Draw(t, "pace"),
	}
	s.HeavyBrakings = int(rapid.Float64Range(0, 4).Draw(t, "brakings per km") * s.Meters / 1000)
	return s
}

func TestSummaryKeepsItsWord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyVehicle(t)
		s := anySummary(t)
		lap, err := Simulate(v, s.sized(reference()), s.Pace)
		if err != nil {
			t.Fatal(err)
		}
		want := lap.Seconds * s.Meters / lap.Meters
		if rapid.Bool().Draw(t, "by lap time") {
			s.Pace, s.LapTime = 0, want
		}
		d, err := FromSummary(v, reference(), s)
		if err != nil {
			t.Fatal(err)
		}
		if !within(d.Pace, lap.Pace, 1e-6) {
			t.Fatalf("pace %g, want %g", d.Pace, lap.Pace)
		}
		if got := LeftShare(d); math.Abs(got-s.LeftShare) > 1e-12 {
			t.Fatalf("left share %.12g, want %.12g", got, s.LeftShare)
		}
		seconds, driving, braking := 0.0, 0.0, 0.0
		for _, x := range d.States {
			if !(x.Seconds > 0) {
				t.Fatalf("state %+v", x)
			}
			seconds += x.Seconds
			if f := v.TractiveForce(x); f < 0 {
				braking -= f * x.V * x.Seconds
			}
			driving += (1.20*0.66/2*x.V*x.V + 0.013*v.Mass*G) * x.V * x.Seconds
		}
		driving += d.BrakeEnergy
		if !within(d.Seconds, want, 1e-8) || !within(seconds, d.Seconds, 1e-9) {
			t.Fatalf("lap %.9g s, its states %.9g s, want %.9g", d.Seconds, seconds, want)
		}

		if s.HeavyBrakings > 0 && len(d.Brakings) != s.HeavyBrakings && len(lap.Brakings) > 0 {
			t.Fatalf("%d brakings, want %d", len(d.Brakings), s.HeavyBrakings)
		}
		perKm := lap.BrakeEnergy / lap.Meters
		if !within(d.BrakeEnergy/d.Meters, perKm, 1e-6) {
			t.Fatalf("brake %g J/m, want %g", d.BrakeEnergy/d.Meters, perKm)
		}
		if !within(braking, d.BrakeEnergy, 1e-3) { // states hold the mean speed, not the mean square
			t.Fatalf("the states brake %g J of %g", braking, d.BrakeEnergy)
		}
		if !within(driving, d.DriveEnergy, 1e-9) {
			t.Fatalf("drive %g J, want %g", d.DriveEnergy, driving)
		}
		if got, want := sumOf(v, d.Brakings)/d.Meters, sumOf(v, lap.Brakings)/lap.Meters; !within(got, want, 1e-6) {
			t.Fatalf("brakings hold %g J/m, want %g", got, want)
		}
		for i, b := range d.Brakings {
			if !within(b.Start, d.Seconds*float64(i)/float64(len(d.Brakings)), 1e-12) {
				t.Fatalf("braking %d starts at %g s", i, b.Start)
			}
		}
	})
}

func sumOf(v Vehicle, list []Braking) float64 {
	sum := 0.0
	for _, b := range list {
		sum += v.BrakingEnergy(b)
	}
	return sum
}

func TestSummaryMirrored(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyVehicle(t)
		s := anySummary(t)
		a, errA := FromSummary(v, reference(), s)
		s.LeftShare = 1 - s.LeftShare
		b, errB := FromSummary(v, reference(), s)
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		for _, left := range []bool{true, false} {
			all := side(a, true) + side(a, false)
			if math.Abs(side(a, left)-side(b, !left)) > 1e-12*all {
				t.Fatalf("%g against %g", side(a, left), side(b, !left))
			}
		}
	})
}

// side is the integral of |ay|^3 v dt to one side, some strongly nonlinear wear.
func side(d Duty, left bool) float64 {
	sum := 0.0
	for _, x := range d.States {
		if x.Ay > 0 == left && x.Ay != 0 {
			sum += math.Abs(x.Ay*x.Ay*x.Ay) * x.V * x.Seconds
		}
	}
	return sum
}

// Twice the brakings a km: corners lie 0.84 times as far apart and are as much
// tighter, by as much angle. Four times or a tenth count no further.
func TestSizedReference(t *testing.T) {
	for _, tt := range []struct {
		brakings int
		want     float64
	}{{0, 1}, {22, 1}, {44, 0.8409}, {88, 0.8409}, {2, 1.1892}} {
		got := Summary{Meters: 10e3, HeavyBrakings: tt.brakings}.sized(reference())
		if !within(Length(got), tt.want*4080, 1e-4) || !within(Turning(got), Turning(reference()), 1e-12) {
			t.Errorf("%d brakings: %g m, %g rad, want %g times the reference", tt.brakings, Length(got), Turning(got), tt.want)
		}
	}
}

// A closed plan: an all-left lap of 4.08 km turns 360 degrees, not 1,224.
func TestTurningRatio(t *testing.T) {
	for _, tt := range []struct{ meters, share, want float64 }{
		{4080, 0.5, 1}, {4080, 0.6, 1},
		{4080, 0.7, 900.0 / 1224}, // 180/0.2 degrees of 300 per km
		{4080, 0.3, 900.0 / 1224},
		{4080, 1, 0.6}, {4080, 0, 0.6},
		{1000, 0.75, 1},
	} {
		got := turningRatio(reference(), Summary{Meters: tt.meters, LeftShare: tt.share})
		if !within(got, tt.want, 1e-5) {
			t.Errorf("%g m at %g: %.5f, want %.5f", tt.meters, tt.share, got, tt.want)
		}
	}
}

// Pace wins over the typical lap time.
func TestSummaryPaceWins(t *testing.T) {
	s := Summary{Meters: 3500, LeftShare: 0.75, LapTime: 111, Pace: 0.65}
	both, err := FromSummary(middling(), reference(), s)
	if err != nil {
		t.Fatal(err)
	}
	s.LapTime = 0
	alone, err := FromSummary(middling(), reference(), s)
	if err != nil {
		t.Fatal(err)
	}
	if both.Pace != 0.65 || both.Seconds != alone.Seconds || both.Seconds < 120 {
		t.Errorf("pace %g, lap %g s against %g s", both.Pace, both.Seconds, alone.Seconds)
	}
}

func TestSummaryErrors(t *testing.T) {
	good := Summary{Meters: 3500, LeftShare: 0.75, LapTime: 111, HeavyBrakings: 9}
	for _, tt := range []struct {
		change func(*Summary)
		says   string
	}{
		{func(s *Summary) { s.Meters = 0 }, "a lap of 0 m"},
		{func(s *Summary) { s.Meters = math.NaN() }, "a lap of NaN m"},
		{func(s *Summary) { s.Meters = 200e3 }, "a lap of 200000 m"},
		{func(s *Summary) { s.LeftShare = 75 }, "a left share of 75"},
		{func(s *Summary) { s.LeftShare = math.NaN() }, "a left share of NaN"},
		{func(s *Summary) { s.LapTime = -1 }, "a lap time of -1 s"},
		{func(s *Summary) { s.LapTime = 0 }, "needs a lap time or a pace"},
		{func(s *Summary) { s.LapTime = 20 }, "a lap of 20 s is out of reach"},
		{func(s *Summary) { s.LapTime = 600 }, "a lap of 600 s is out of reach"},
		{func(s *Summary) { s.Pace = 80 }, "a pace of 80"},
		{func(s *Summary) { s.Pace = math.NaN() }, "a pace of NaN"},
		{func(s *Summary) { s.HeavyBrakings = -1 }, "-1 heavy brakings"},
		{func(s *Summary) { s.HeavyBrakings = 90 }, "90 heavy brakings on a lap of 3.5 km"},
	} {
		s := good
		tt.change(&s)
		if _, err := FromSummary(middling(), reference(), s); err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("error %v, want one that says %q", err, tt.says)
		}
	}
	if _, err := FromSummary(middling(), nil, good); err == nil || !strings.Contains(err.Error(), "reference lap: ") {
		t.Errorf("without a reference lap: %v", err)
	}
	round := []Segment{corner(0, 360, 300)}
	if _, err := FromSummary(middling(), round, Summary{Meters: 3500, LeftShare: 0.75, Pace: 0.9}); err == nil || !strings.Contains(err.Error(), "too few straights") {
		t.Errorf("a reference lap without straights: %v", err)
	}

	// What it says is reachable is in the circuit's own seconds.
	s := good
	s.LapTime = 20
	_, err := FromSummary(middling(), reference(), s)
	var reach *LapTimeError
	if !errors.As(err, &reach) {
		t.Fatal(err)
	}
	for lap, within := range map[float64]bool{
		reach.Fastest * 1.0001: true, reach.Slowest * 0.9999: true,
		reach.Fastest * 0.9999: false, reach.Slowest * 1.0001: false,
	} {
		s.LapTime = lap
		if _, err := FromSummary(middling(), reference(), s); (err == nil) != within {
			t.Errorf("a lap of %g s: %v", lap, err)
		}
	}
}

// Brakings that heat nothing are repeated as they are.
func TestSummaryOfColdBrakings(t *testing.T) {
	gentle := Braking{From: 30, To: 20, Decel: 0.1, Factor: 1} // slower than coasting
	ref := Duty{Meters: 3000, Brakings: []Braking{gentle}}
	for _, b := range (Summary{Meters: 3000, HeavyBrakings: 2}).brakings(middling(), ref, 1, 100) {
		if b.Factor != 1 {
			t.Errorf("%+v", b)
		}
	}
}
