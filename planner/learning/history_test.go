package learning

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/wearmodel/reliability"
)

// A loss that doubles from a spread below the pace to one above it grows by
// half the logarithm of two a spread; one that takes nothing at either does not
// follow the pace.
func TestLossByPace(t *testing.T) {
	for _, c := range []struct {
		l    trip.Loss
		want float64
	}{{trip.Loss{1, 1.5, 2}, math.Ln2 / 2}, {trip.Loss{2, 1.5, 1}, -math.Ln2 / 2}, {trip.Loss{0, 1, 2}, 0}, {trip.Loss{1, 1, 0}, 0}} {
		if got := paceExponent(c.l); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%v: %g a spread, want %g", c.l, got, c.want)
		}
	}
}

// A reading between two odometers has to do with the road it was driven over
// and with each circuit visit: by the rates of its kind and set, by its own
// point, by the visit's pace, and by the circuit where that is known by its
// summary alone. What took nothing is left out.
func TestWhatAReadingHasToDoWith(t *testing.T) {
	at := func(taken float64) trip.Usage {
		u := hubWear(true, taken)
		u.At[0].Hub[1], u.At[2].Hub[1] = taken/2, taken*2
		return u
	}
	h := &history{kind: kind.Pads, zones: []string{""}, keys: []string{"0 a", "1 b"}, past: &trip.Past{Visits: 3, Circuits: []string{"oval", "ring"}}}
	h.past.Drives = []trip.Drive{
		{From: 0, To: 100, Usage: hubWear(false, 0.125), Visit: -1}, {From: 100, To: 110, Usage: at(0.25), Visit: 0},
		{From: 110, To: 120, Usage: hubWear(true, 0), Visit: 1}, {From: 120, To: 130, Usage: at(0.5), Visit: 2, Circuit: "ring"},
	}
	one := func(factors ...int) (out []reliability.Power) {
		for _, f := range factors {
			out = append(out, reliability.Power{Factor: f, Exponent: 1})
		}
		return out
	}
	pace := func(visit int) reliability.Power { return reliability.Power{Factor: 2 + visit, Exponent: math.Ln2} }
	// Factors: road 0, circuit 1, visits 2-4, circuits 5-6, then of each set its
	// road, its circuit and two points: 7-10 and 11-14.
	want := []reliability.Taken{
		{Amount: 0.125, Powers: one(0, 11, 14)},
		{Amount: 0.25, Powers: append(one(1, 12, 14), pace(0))},
		{Amount: 0.5, Powers: append(append(one(1, 12, 14), pace(2)), one(6)...)},
	}
	got := h.taken(reading{axle: 1, key: 1, place: "RR"}, ofRF, h.past, 0, 130)
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if got := h.taken(reading{axle: 1, key: 1, place: "RR"}, ofRF, h.past, 110, 120); len(got) != 0 {
		t.Errorf("a day that takes nothing: %+v", got)
	}
	if n := len(h.priorFactors()); n != 15 {
		t.Errorf("%d factors, want 15", n)
	}
}

// The prior of the factors: of a spread of 0.2 half the
// variance is the kind's in common, half each set's own.
func TestFactorsBeforehand(t *testing.T) {
	h := &history{kind: kind.Tire, zones: kind.Zones[:], road: 0.2, circuit: 0.4, summary: 0.3, keys: []string{"0 a"}, past: &trip.Past{Visits: 1, Circuits: []string{"ring"}}}
	r := math.Sqrt(0.5)
	want := []float64{0.2 * r, 0.4 * r, 1, 0.3, 0.2 * r, 0.4 * r, pointSpread, pointSpread, pointSpread, pointSpread, pointSpread, pointSpread}
	got := h.priorFactors()
	if len(got) != len(want) {
		t.Fatalf("%d factors, want %d", len(got), len(want))
	}
	for i, f := range got {
		if math.Abs(f.SD-want[i]) > 1e-12 {
			t.Errorf("factor %d: spread %g, want %g", i, f.SD, want[i])
		}
	}
}

// The readings of one odometer are foretold together. What was not driven to,
// what was left out, and the first reading of a part that was never new cannot
// be foretold.
func TestOccasions(t *testing.T) {
	some := []reliability.Taken{{Amount: 1}}
	h := &history{
		starts: []reliability.Start{{SD: 1e-4}, {SD: unknownStartSD}},
		readings: []reading{
			{start: 0, odometer: 10}, {start: 1, odometer: 20, taken: some}, {start: 0, odometer: 20, taken: some},
			{start: 0, odometer: 30, taken: some}, {start: 1, odometer: 30, taken: some}, {start: 0, odometer: 40, taken: some}, {start: 1, odometer: 50, taken: some},
		},
	}
	if diff := cmp.Diff([][]int{{2}, {3, 4}, {6}}, h.occasions(estimate{outliers: []int{5}})); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
