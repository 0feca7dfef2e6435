package duty

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The reference lap's own figures, at the usual size, must give its lap back,
// with as much less heavy braking as driven lines have.
func TestSummaryOfTheReferenceLap(t *testing.T) {
	v := middling()
	lap, err := Simulate(v, Summary{}.sized(reference()), 0.9)
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
		{"drive, J", got.DriveEnergy, lap.DriveEnergy, 0.03}, // a tenth more time in corners is less on straights
		{"brakings", float64(len(got.Brakings)), float64(len(lap.Brakings)), 0},
		{"factor", got.Brakings[0].Factor, heavyShare, 1e-12},
	} {
		if !within(tt.got, tt.want, tt.tol) {
			t.Errorf("%s: %.9g, want %.9g", tt.name, tt.got, tt.want)
		}
	}
}

// anySummary draws a summary.
func anySummary(t *rapid.T) Summary {
	s := Summary{
		Meters:    rapid.Float64Range(1000, 8000).Draw(t, "meters"),
		LeftShare: rapid.OneOf(rapid.Float64Range(0, 1), rapid.SampledFrom([]float64{0, 0.5, 1})).Draw(t, "left share"),
		Pace:      rapid.Float64Range(0.45, 1.0).Draw(t, "pace"),
		Size:      rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0.5, 2)).Draw(t, "size"),
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
		d, err := FromSummary(v, reference(), s)
		if err != nil {
			t.Fatal(err)
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
		perKm := lap.BrakeEnergy / lap.Meters * math.Cbrt(s.ratio())
		if !within(d.BrakeEnergy/d.Meters, perKm, 1e-6) {
			t.Fatalf("brake %g J/m, want %g", d.BrakeEnergy/d.Meters, perKm)
		}
		if !within(braking, d.BrakeEnergy, 1e-3) { // states hold the mean speed, not the mean square
			t.Fatalf("the states brake %g J of %g", braking, d.BrakeEnergy)
		}
		if !within(driving, d.DriveEnergy, 1e-9) {
			t.Fatalf("drive %g J, want %g", d.DriveEnergy, driving)
		}
		if got, want := sumOf(v, d.Brakings)/d.Meters, heavyShare*math.Cbrt(s.ratio())*sumOf(v, lap.Brakings)/lap.Meters; !within(got, want, 1e-6) {
			t.Fatalf("brakings hold %g J/m, want %g", got, want)
		}
		for i, b := range d.Brakings {
			if s.HeavyBrakings > 0 && !within(b.Start, d.Seconds*float64(i)/float64(len(d.Brakings)), 1e-12) {
				t.Fatalf("braking %d starts at %g s", i, b.Start)
			}
		}
	})
}

// A circuit longer by a hair brakes more by a hair: the last braking grows.
func TestBrakingsGrowEvenly(t *testing.T) {
	ref, err := Simulate(middling(), reference(), 0.9)
	if err != nil {
		t.Fatal(err)
	}
	n := float64(len(ref.Brakings))
	for _, more := range []float64{0, 1e-9, 0.5, 1 - 1e-9} {
		s := Summary{Meters: ref.Meters * (1 + more/n)}
		list := s.brakings(middling(), ref, s.Meters/ref.Meters, 100)
		if got, want := sumOf(middling(), list), (1+more/n)*sumOf(middling(), ref.Brakings); !within(got, want, 1e-9) {
			t.Errorf("%g of a braking more: %g J, want %g", more, got, want)
		}
		if more > 0 && !within(list[len(list)-1].Factor, more*list[0].Factor, 1e-5) {
			t.Errorf("%g of a braking more: the last counts %g of %g", more, list[len(list)-1].Factor, list[0].Factor)
		}
	}
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

// Four times the brakings a km: corners lie half as far apart and are twice as
// tight, by as much angle; more than twice as many count no further.
func TestSizedReference(t *testing.T) {
	for _, tt := range []struct {
		brakings   int
		size, want float64
	}{{0, 0, 1}, {23, 0, 1}, {46, 0, math.Sqrt(0.5)}, {92, 0, math.Sqrt(0.5)}, {2, 0, math.Sqrt(5)}, {23, 1.3, 1.3}, {46, 2, math.Sqrt(2)}} {
		got := Summary{Meters: 10e3, HeavyBrakings: tt.brakings, Size: tt.size}.sized(reference())
		if !within(Length(got), tt.want*usualSize*4080, 1e-4) || !within(Turning(got), Turning(reference()), 1e-12) {
			t.Errorf("%d brakings: %g m, %g rad, want %g times the usual", tt.brakings, Length(got), Turning(got), tt.want)
		}
	}
}

func TestSummaryErrors(t *testing.T) {
	good := Summary{Meters: 3500, LeftShare: 0.75, Pace: 0.8, HeavyBrakings: 9}
	for _, tt := range []struct {
		change func(*Summary)
		says   string
	}{
		{func(s *Summary) { s.Meters = 0 }, "a lap of 0 m"},
		{func(s *Summary) { s.Meters = math.NaN() }, "a lap of NaN m"},
		{func(s *Summary) { s.Meters = 200e3 }, "a lap of 200000 m"},
		{func(s *Summary) { s.LeftShare = 75 }, "a left share of 75"},
		{func(s *Summary) { s.LeftShare = math.NaN() }, "a left share of NaN"},
		{func(s *Summary) { s.Size = 9 }, "a size of 9"},
		{func(s *Summary) { s.Size = math.NaN() }, "a size of NaN"},
		{func(s *Summary) { s.Pace = 0 }, "a pace of 0"},
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
