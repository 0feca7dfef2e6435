package lists

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
)

// TestSharedLabour: an axle's pads and rotors renewed together are billed the
// larger job alone.
func TestSharedLabor(t *testing.T) {
	for _, c := range []struct{ pads, rotors, want float64 }{{130, 195, 195}, {195, 130, 195}, {130, 130, 130}} {
		p := &plan.Plan{Legs: []plan.Leg{{Name: "Mill Lane"}}}
		for id, labor := range map[string]float64{"pads-front": c.pads, "rotors-front": c.rotors} {
			p.Sets = append(p.Sets, plan.Set{ID: id, Decision: plan.Decision{Action: plan.ReplaceAtStop, Leg: 0, Labor: labor, Shop: true}})
		}
		Spend(p, profiles.Costs{Visit: 40})
		if got := p.Spend(plan.ForLabor); got != c.want {
			t.Errorf("pads %g and rotors %g: billed %g", c.pads, c.rotors, got)
		}
		if got := p.Spend(plan.ForVisits); got != 40 {
			t.Errorf("one visit billed %g", got)
		}
	}
}

// TestTravelNeverCheaper: no expense is negative, and a longer way never costs
// less fuel or fewer nights.
func TestTravelNeverCheaper(t *testing.T) {
	costs := profiles.Costs{Night: 95, Fuel: 1000}
	billed := func(t *rapid.T, trip profiles.Trip) *plan.Plan {
		s, err := driven(trip)
		if err != nil {
			t.Fatal(err)
		}
		for j := range s.Legs {
			s.Legs[j].FuelUsed = s.Legs[j].Meters * 1e-7
		}
		p := &plan.Plan{Legs: s.Legs}
		Spend(p, costs)
		return p
	}
	rapid.Check(t, func(t *rapid.T) {
		trip := anyTrip(t)
		more := trip
		more.Legs = append([]profiles.Leg{hours(rapid.Float64Range(0, 30).Draw(t, "more"))}, trip.Legs...)
		a, b := billed(t, trip), billed(t, more)
		for _, e := range append(a.Budget, b.Budget...) {
			if !(e.Amount >= 0) {
				t.Fatalf("%+v", e)
			}
		}
		if b.Spend("") < a.Spend("")-1e-9 {
			t.Fatalf("%g, with a longer road %g", a.Spend(""), b.Spend(""))
		}
	})
}

// TestNothingToBill: what costs nothing has no line in the budget: no fee, no
// night away, a part from the shelf, labor that is done within another job.
func TestNothingToBill(t *testing.T) {
	p := &plan.Plan{
		Legs:     []plan.Leg{{Name: "the road", FuelUsed: 2}, {Name: "the ring", Circuit: "the ring", Fee: 30, Nights: 1}},
		Shopping: []plan.Item{{Name: "pads", Price: 50, OnShelf: true}, {Name: "oil", Price: 20}},
		Sets: []plan.Set{
			{ID: "pads-front", Name: "front pads", Decision: plan.Decision{Action: plan.ReplaceBefore, Leg: -1, Shop: true, Labor: 40}},
			{ID: "rotors-front", Name: "front rotors", Decision: plan.Decision{Action: plan.ReplaceBefore, Leg: -1, Shop: true, Labor: 60, POut: 0.25}},
			{ID: "hub-LF", Decision: plan.Decision{Action: plan.ReplaceBefore, Leg: -1, Labor: 15, POut: 0.5}},
		},
	}
	Spend(p, profiles.Costs{Fuel: 3, Night: 90, Visit: 25, Stranded: 100})
	want := []plan.Expense{
		{Kind: plan.ForFuel, What: "what the legs burn", Amount: 6, Leg: -1}, {Kind: plan.ForFees, What: "the ring", Amount: 30, Leg: 1}, {Kind: plan.ForNights, What: "1 away", Amount: 90, Leg: -1}, {Kind: plan.ForParts, What: "oil", Amount: 20, Leg: -1},
		{Kind: plan.ForVisits, What: "shop at home", Amount: 25, Leg: -1}, {Kind: plan.ForLabor, What: "front rotors", Amount: 60, Leg: -1},
	}
	if diff := cmp.Diff(want, p.Budget); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if own, stopped := p.Apart[0].Amount, p.Apart[1].Amount; own != 15 || stopped != 75 {
		t.Errorf("own work %g, stopped short %g; want 15 and 75", own, stopped)
	}
	stay := &plan.Plan{Legs: []plan.Leg{{Name: "the road"}}}
	travel(stay, profiles.Costs{Fuel: 3, Night: 90})
	if diff := cmp.Diff([]plan.Expense{{Kind: plan.ForFuel, What: "what the legs burn", Amount: 0, Leg: -1}}, stay.Budget); diff != "" {
		t.Errorf("a day out (-want +got):\n%s", diff)
	}
}
