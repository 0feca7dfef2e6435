package planner

import (
	"math"
	"testing"

	"example.com/tripwear/planner/plan"
)

// TestBudget works the demo's budget by hand from its prices: 3.90 USD/gal,
// fees of 640 and 310, nights at 95, 430 for the rear tires and 150 for the
// front rotors, a workshop at 130 an hour for half an hour, and 40 for the
// visit. What lies on the shelf costs nothing.
func TestBudget(t *testing.T) {
	f, trip := demo(t, "juniper")
	p := planned(t, f, trip)
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
		plan.ForFuel: gallons * 3.90, plan.ForFees: 950, plan.ForNights: 8 * 95,
		plan.ForParts: 430 + 150 + topUp, plan.ForLabor: 65, plan.ForVisits: 40,
	}
	sum := 0.0
	for _, kind := range plan.ExpenseKinds {
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
