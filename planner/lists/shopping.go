package lists

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"example.com/tripwear/planner/decision"
	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

var occasionsToBuy = []string{plan.BuyBefore, plan.BuyBring, plan.BuyOnTheWay}

// Shop fills the shopping list from the decisions and adds it up.
func Shop(p *plan.Plan, w *trip.Journey, today time.Time) {
	for _, s := range p.Sets {
		part := w.Folder.Parts[s.Part]
		filled := kind.Filled(w.Folder, part)
		shelf := s.Decision.Shelf
		for _, buy := range decision.Needs(s.Decision, p.Legs) {
			it := plan.Item{
				Set: s.ID, Part: s.Part, Name: itemName(part, s), Buy: buy, Wheels: kind.Of(s.Kind).WheelsOff,
				Price: float64(part.Price), Volume: float64(part.Volume), Mass: float64(part.Weight), Tools: part.Tools,
			}
			for _, other := range p.Sets {
				if other.Decision.Shares == s.ID {
					it.Name = fmt.Sprintf("%s (%s or %s)", part.Name, s.Name, other.Name)
				}
			}
			bought := kind.Of(s.Kind).Buy(part)
			it.Count, it.As, it.Fluid, it.With = bought.Count, bought.As, bought.Fluid, bought.With
			if shelf > 0 {
				shelf--
				it.OnShelf = true
			}
			if !it.OnShelf && decision.Ordered(w, filled, buy) {
				o := decision.OrderFor(p.Depart, filled, buy)
				it.OrderBy, it.ThereBy, it.ThereFor, it.Late = o.By, o.There, o.For, o.Late(today)
			}
			p.Shopping = append(p.Shopping, it)
		}
	}
	p.TopUp = w.TopUp
	if it, ok := topUpItem(w); ok {
		it.OnShelf = w.Under != nil // packed before leaving
		p.Shopping = append(p.Shopping, it)
	}
	slices.SortStableFunc(p.Shopping, func(a, b plan.Item) int {
		if a.Late != b.Late {
			return map[bool]int{true: -1, false: 1}[a.Late]
		}
		return cmp.Or(cmp.Compare(slices.Index(occasionsToBuy, a.Buy), slices.Index(occasionsToBuy, b.Buy)), a.OrderBy.Compare(b.OrderBy))
	})
	p.Totals = totals(p.Shopping)
}

// itemName is a part and the set it is for, which may be called the same.
func itemName(part profiles.Part, s plan.Set) string {
	if part.Name == s.Name {
		return s.Name
	}
	return fmt.Sprintf("%s (%s)", part.Name, s.Name)
}

// topUpItem is the oil to take along for topping up, in whole bottles, at the
// price by volume of the fill.
func topUpItem(w *trip.Journey) (plan.Item, bool) {
	n := int(math.Ceil(w.TopUp/kind.Liter - 1e-9))
	if n <= 0 {
		return plan.Item{}, false
	}
	part := w.On[profiles.Oil]["engine"].Part
	room := trip.TopUpRoom(w.TopUp)
	it := plan.Item{
		Part: part.ID, Name: part.Oil.Grade + " for topping up", Buy: plan.BuyBring, Count: n, As: kind.Bottle, Fluid: kind.Liter,
		Volume: room[0], Mass: room[1],
	}
	if part.Oil.Quantity > 0 {
		it.Price = math.Round(float64(part.Price) * float64(n) * kind.Liter / float64(part.Oil.Quantity))
	}
	return it, true
}

// totals adds up what is still to be paid, by occasion.
func totals(items []plan.Item) []plan.Total {
	var out []plan.Total
	for _, buy := range occasionsToBuy {
		t, any := plan.Total{Buy: buy}, false
		for _, it := range items {
			if it.Buy == buy {
				any = true
				if pay := it.ToPay(); quantity.Known(pay) {
					t.Price += pay
				} else {
					t.Unpriced++
				}
			}
		}
		if any {
			out = append(out, t)
		}
	}
	return out
}
