package learning

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/wearmodel/reliability"
)

// A reading between two odometers has to do with the road it was driven over
// and with each circuit visit: by the rates of its kind and set, by its own
// point, by the visit, and by the circuit. A visit scatters with its pace, whose
// spread here doubles what it takes, and by 0.1 beside: as a t distribution has
// twice the variance of its scale, by the root of (ln 2)^2/2 + 0.01. What took
// nothing is left out.
func TestWhatAReadingHasToDoWith(t *testing.T) {
	at := func(taken float64) trip.Usage {
		u := hubWear(true, taken)
		u.At[0].Hub[1], u.At[2].Hub[1] = taken/2, taken*2
		return u
	}
	h := &history{kind: kind.Pads, zones: []string{""}, keys: []axlePart{{0, "a"}, {1, "b"}}, beliefs: make([]belief, 2), spread: spreads{visit: 0.1}, past: &trip.Past{Visits: 3, Circuits: []trip.Circuit{{Name: "oval"}, {Name: "ring", Summary: true}}}}
	h.past.Drives = []trip.Drive{
		{From: 0, To: 100, Usage: hubWear(false, 0.125), Visit: -1}, {From: 100, To: 110, Usage: at(0.25), Visit: 0, Circuit: "oval"},
		{From: 110, To: 120, Usage: hubWear(true, 0), Visit: 1}, {From: 120, To: 130, Usage: at(0.5), Visit: 2, Circuit: "ring"},
	}
	one := func(factors ...int) (out []reliability.Power) {
		for _, f := range factors {
			out = append(out, reliability.Power{Factor: f, Exponent: 1})
		}
		return out
	}
	visit := func(visit int) reliability.Power {
		return reliability.Power{Factor: 2 + visit, Exponent: math.Sqrt(math.Ln2*math.Ln2/2 + 0.01)}
	}
	// Factors: road 0, circuit 1, visits 2-4, circuits 5-6, then of each set its
	// road, its circuit and two points: 7-10 and 11-14, and two steps: 15-16.
	want := []reliability.Taken{
		{Amount: 0.125, Powers: one(0, 11, 14)},
		{Amount: 0.25, Powers: append(append(one(1, 12), visit(0)), one(5, 14)...)},
		{Amount: 0.5, Powers: append(append(one(1, 12), visit(2)), one(6, 14, 16)...)},
	}
	got := h.taken(reading{axle: 1, key: 1, place: "RR"}, ofRF, h.past, nil, 0, 130)
	if diff := cmp.Diff(want, got, cmpopts.EquateApprox(0, 1e-12)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if got := h.taken(reading{axle: 1, key: 1, place: "RR"}, ofRF, h.past, nil, 110, 120); len(got) != 0 {
		t.Errorf("a day that takes nothing: %+v", got)
	}
	all := h.priorFactors(unrest{scatter: 1, drift: 0.1})
	if n := len(all); n != 17 || n != h.factors() {
		t.Fatalf("%d factors, want 17 and not %d", n, h.factors())
	}
	if a, b := all[15], all[16]; a.After != 0 || b.After != 16 || math.Abs(a.SD-0.1) > 1e-12 || b.SD != a.SD {
		t.Errorf("steps %+v and %+v", a, b)
	}
}

// The prior of the factors, of spreads of 0.25 and 0.5: a point has 0.15, a
// circuit 0.25, with 0.3 more by its summary, and a visit 0.15 as a scale, so of
// the variances 0.04 and 0.12 are left, half of each the kind's in common, half
// each set's own. Of a point's 0.0225 three fifths are its wheel's.
func TestFactorsBeforehand(t *testing.T) {
	h := &history{kind: kind.Tire, zones: kind.Zones[:], spread: split(kind.Spreads{Road: 0.25, Circuit: 0.5, Summary: 0.3}), keys: []axlePart{{0, "a"}}, past: &trip.Past{Visits: 1, Circuits: []trip.Circuit{{Name: "ring", Summary: true}, {Name: "oval"}}}}
	h.beliefs = []belief{h.spread.alone()}
	road, circuit := math.Sqrt(0.04/2), math.Sqrt(0.12/2)
	wheel, zone := math.Sqrt(0.0225*0.6), math.Sqrt(0.0225*0.4)
	want := []float64{road, circuit, 1.5, math.Hypot(0.25, 0.3), 0.25, road, circuit, wheel, zone, zone, zone, wheel, zone, zone, zone}
	got := h.priorFactors(unrest{scatter: 1.5})
	if len(got) != len(want) || got[2].Freedom != 4 {
		t.Fatalf("%d factors, want %d: %v", len(got), len(want), got)
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
