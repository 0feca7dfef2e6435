package planner

import (
	"slices"
	"testing"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// TestPriceTurns: what a plan says that an unknown price would turn is what a
// plan with that price does, and what it says nothing of does not turn.
func TestPriceTurns(t *testing.T) {
	f, trip := demo(t, "juniper")
	o := Options{Draws: 1000}
	turned := 0
	ids := []string{"pads-front", "rotors-front", "oil", "tires-rear", "hub-front"}
	if testing.Short() {
		ids = ids[:1]
	}
	for _, id := range ids {
		priced := func(price quantity.Money) *plan.Plan {
			g := f.Clone()
			part := g.Parts[id]
			part.Price = price
			g.Parts[id] = part
			p, _ := decisions(t, g, trip, o)
			return p
		}
		unknown := priced(quantity.Money(quantity.Unknown()))
		guess := statedPrice(t, unknown)
		for _, price := range []float64{guess / kind.GuessWide, guess * kind.GuessWide} {
			known := priced(quantity.Money(price))
			for i, s := range known.Sets {
				want := unknown.Sets[i].Decision
				if k := slices.IndexFunc(unknown.Choice.Turns, func(p plan.PriceTurn) bool { return p.Set == s.ID && p.Price == price }); k >= 0 {
					turn := unknown.Choice.Turns[k]
					want.Action, want.Leg, want.Spare = turn.Action, turn.Leg, turn.Spare
					turned++
				}
				if d := s.Decision; d.Action != want.Action || d.Leg != want.Leg || d.Spare != want.Spare {
					t.Errorf("%s at %v, %s: %s at %d, spare %v; said %s at %d, spare %v", id, price, s.ID, d.Action, d.Leg, d.Spare, want.Action, want.Leg, want.Spare)
				}
			}
		}
	}
	if turned == 0 && !testing.Short() {
		t.Error("no price turns anything: the test shows nothing")
	}
}
