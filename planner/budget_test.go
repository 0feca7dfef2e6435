package planner

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"example.com/tripwear/profiles"
)

// TestFuelStops by hand: a tank of 60 L of which 54 L are used, and 10 L per
// 100 km, which is 540 km from full to the reserve.
func TestFuelStops(t *testing.T) {
	const perMetre = 10e-3 / 100e3
	road := func(km float64) Leg {
		return Leg{Kind: profiles.RoadLeg, Metres: km * 1000, FuelUsed: km * 1000 * perMetre}
	}
	circuit := func(litres float64) Leg { return Leg{Kind: profiles.CircuitLeg, FuelUsed: litres * 1e-3} }
	for _, c := range []struct {
		what  string
		legs  []Leg
		stops []int
		at    [][]float64 // km
	}{
		{"within the range", []Leg{road(500)}, []int{0}, [][]float64{nil}},
		{"to the reserve and no further", []Leg{road(540)}, []int{0}, [][]float64{nil}},
		{"twice on the way", []Leg{road(1200)}, []int{2}, [][]float64{{540, 1080}}},
		{"what is left goes on to the next leg", []Leg{road(400), road(400)}, []int{0, 1}, [][]float64{nil, {140}}},
		// 40 L gone, 14 left; the day takes 50 and leaves 18, which is 180 km.
		{"a circuit day fills up once", []Leg{road(400), circuit(50), road(200)}, []int{0, 1, 1}, [][]float64{nil, nil, {180}}},
		{"a day of more than two tanks", []Leg{circuit(120)}, []int{2}, [][]float64{nil}},
	} {
		refuel(c.legs, 60e-3)
		for j, l := range c.legs {
			var at []float64
			for _, m := range l.RefuelAt {
				at = append(at, m/1000)
			}
			if l.Refuels != c.stops[j] || !cmp.Equal(at, c.at[j], cmpopts.EquateApprox(1e-9, 1e-6), cmpopts.EquateEmpty()) {
				t.Errorf("%s, leg %d: %d stops at %v km, want %d at %v", c.what, j+1, l.Refuels, at, c.stops[j], c.at[j])
			}
		}
	}
}

// TestFuelProperties: the tank never falls below its reserve, and no stop is
// made before it is reached.
func TestFuelProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tank := rapid.Float64Range(0.01, 0.2).Draw(t, "tank")
		legs := make([]Leg, rapid.IntRange(1, 8).Draw(t, "legs"))
		for j := range legs {
			legs[j] = Leg{Kind: profiles.RoadLeg, Metres: 1e5, FuelUsed: rapid.Float64Range(0, 1).Draw(t, "used")}
		}
		refuel(legs, tank)
		usable, since, used := (1-reserve)*tank, 0.0, 0.0
		stops := 0
		for _, l := range legs {
			before := 0.0
			for _, m := range l.RefuelAt {
				share := m / l.Metres
				since += (share - before) * l.FuelUsed
				if math.Abs(since-usable) > 1e-9 {
					t.Fatalf("filled up after %g of %g m3", since, usable)
				}
				since, before = 0, share
			}
			since += (1 - before) * l.FuelUsed
			if since > usable+1e-9 {
				t.Fatalf("%g m3 since the last stop, %g usable", since, usable)
			}
			used += l.FuelUsed
			stops += l.Refuels
		}
		if float64(stops+1)*usable < used-1e-9 {
			t.Fatalf("%d stops for %g m3", stops, used)
		}
	})
}

// TestBudget works the demo's budget by hand from its prices: 3.90 USD/gal,
// fees of 640 and 310, nights at 95, 430 for the rear tires and 150 for the
// front rotors, a workshop at 130 an hour for half an hour, and 40 for the
// visit. What lies on the shelf costs nothing.
func TestBudget(t *testing.T) {
	f, trip := demo(t, "juniper")
	p := plan(t, f, trip)
	const gallon = 3.785411784e-3
	gallons := 0.0
	for _, l := range p.Legs {
		gallons += l.FuelUsed / gallon
	}
	miles := 1010.0 + 85 + 560 + 1245
	road := miles / 27
	onCircuit := gallons - road
	if onCircuit < 20 || onCircuit > 40 { // three days of 95 laps in all, a little over a quart a lap
		t.Errorf("%.1f gal on circuit", onCircuit)
	}
	topUp := 0.0
	for _, it := range p.Shopping {
		if it.Set == "" {
			topUp = it.Price
		}
	}
	if topUp <= 0 {
		t.Error("no oil for topping up, on a car that uses some")
	}
	want := map[string]float64{
		ForFuel: gallons * 3.90, ForFees: 950, ForNights: 8 * 95,
		ForParts: 430 + 150 + topUp, ForLabour: 65, ForVisits: 40,
	}
	sum := 0.0
	for _, kind := range ExpenseKinds {
		if got := p.Spend(kind); math.Abs(got-want[kind]) > 0.01 {
			t.Errorf("%s: %.2f, by hand %.2f", kind, got, want[kind])
		}
		sum += p.Spend(kind)
	}
	if got := p.Spend(""); math.Abs(got-sum) > 1e-9 {
		t.Errorf("all %.2f, its kinds %.2f", got, sum)
	}
	stopped := 0.0
	for _, s := range p.Sets {
		stopped += 1800 * s.Decision.POut
	}
	if got := p.Apart[1].Amount; math.Abs(got-stopped) > 1e-9 {
		t.Errorf("stopped short %.2f, by hand %.2f", got, stopped)
	}
	wet := (1010*0.2 + 1245*0.3) / miles
	if math.Abs(p.Rain-wet) > 1e-9 {
		t.Errorf("rain on %.4f of the road, by hand %.4f", p.Rain, wet)
	}
}

// TestSharedLabour: an axle's pads and rotors renewed together are billed the
// larger job alone.
func TestSharedLabour(t *testing.T) {
	for _, c := range []struct{ pads, rotors, want float64 }{{130, 195, 195}, {195, 130, 195}, {130, 130, 130}} {
		p := &Plan{Legs: []Leg{{Name: "Mill Lane"}}}
		for id, labour := range map[string]float64{"pads-front": c.pads, "rotors-front": c.rotors} {
			p.Sets = append(p.Sets, Set{ID: id, Decision: Decision{Action: RenewAtStop, Leg: 0, Labor: labour, Shop: true}})
		}
		p.spend(profiles.Costs{Visit: 40})
		if got := p.Spend(ForLabour); got != c.want {
			t.Errorf("pads %g and rotors %g: billed %g", c.pads, c.rotors, got)
		}
		if got := p.Spend(ForVisits); got != 40 {
			t.Errorf("one visit billed %g", got)
		}
	}
}

// TestTravelNeverCheaper: no expense is negative, and a longer way never costs
// less fuel or fewer nights.
func TestTravelNeverCheaper(t *testing.T) {
	costs := profiles.Costs{Night: 95, Fuel: 1000}
	billed := func(t *rapid.T, trip profiles.Trip) *Plan {
		s, err := driven(trip)
		if err != nil {
			t.Fatal(err)
		}
		for j := range s.legs {
			s.legs[j].FuelUsed = s.legs[j].Metres * 1e-7
		}
		p := &Plan{Legs: s.legs}
		p.spend(costs)
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
// night away, a part from the shelf, labour that is done within another job.
func TestNothingToBill(t *testing.T) {
	p := &Plan{
		Legs:     []Leg{{Name: "the road", FuelUsed: 2}, {Name: "the ring", Circuit: "the ring", Fee: 30, Nights: 1}},
		Shopping: []Item{{Name: "pads", Price: 50, OnShelf: true}, {Name: "oil", Price: 20}},
		Sets: []Set{
			{ID: "pads-front", Name: "front pads", Decision: Decision{Action: RenewBefore, Leg: -1, Shop: true, Labor: 40}},
			{ID: "rotors-front", Name: "front rotors", Decision: Decision{Action: RenewBefore, Leg: -1, Shop: true, Labor: 60, POut: 0.25}},
			{ID: "hub-LF", Decision: Decision{Action: RenewBefore, Leg: -1, Labor: 15, POut: 0.5}},
		},
	}
	p.spend(profiles.Costs{Fuel: 3, Night: 90, Visit: 25, Stranded: 100})
	want := []Expense{
		{Kind: ForFuel, What: "what the legs burn", Amount: 6}, {Kind: ForFees, What: "the ring", Amount: 30}, {Kind: ForNights, What: "1 away", Amount: 90}, {Kind: ForParts, What: "oil", Amount: 20},
		{Kind: ForVisits, What: "workshop at home", Amount: 25}, {Kind: ForLabour, What: "front rotors", Amount: 60},
	}
	if diff := cmp.Diff(want, p.Budget); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if own, stopped := p.Apart[0].Amount, p.Apart[1].Amount; own != 15 || stopped != 75 {
		t.Errorf("own work %g, stopped short %g; want 15 and 75", own, stopped)
	}
	stay := &Plan{Legs: []Leg{{Name: "the road"}}}
	stay.travel(profiles.Costs{Fuel: 3, Night: 90})
	if diff := cmp.Diff([]Expense{{Kind: ForFuel, What: "what the legs burn", Amount: 0}}, stay.Budget); diff != "" {
		t.Errorf("a day out (-want +got):\n%s", diff)
	}
}
