package planner

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
)

var occasionsToBuy = []string{BuyBefore, BuyCarry, BuyOnTheWay}

// shop fills the shopping list from the decisions and adds it up.
func (p *Plan) shop(w *journey, today time.Time) {
	for _, s := range p.Sets {
		part := w.folder.Parts[s.Part]
		shelf := s.Decision.Shelf
		for _, buy := range needs(s.Decision, p.Legs) {
			it := Item{
				Set: s.ID, Part: s.Part, Name: fmt.Sprintf("%s (%s)", part.Name, s.Name), Buy: buy, Wheels: kind.Of(s.Kind).WheelsOff,
				Price: float64(part.Price), Volume: float64(part.Volume), Mass: float64(part.Weight), Tools: part.Tools,
			}
			bought := kind.Of(s.Kind).Buy(part)
			it.Count, it.As, it.Fluid, it.With = bought.Count, bought.As, bought.Fluid, bought.With
			if shelf > 0 {
				shelf--
				it.OnShelf = true
			}
			if part.LeadTime > 0 && !it.OnShelf && buy != BuyOnTheWay && !p.Depart.IsZero() {
				it.OrderBy = orderBy(p.Depart, part)
				it.Late = !today.IsZero() && it.OrderBy.Before(today)
			}
			p.Shopping = append(p.Shopping, it)
		}
	}
	p.TopUp = w.topUp
	if it, ok := topUpItem(w); ok {
		p.Shopping = append(p.Shopping, it)
	}
	slices.SortStableFunc(p.Shopping, func(a, b Item) int {
		if a.Late != b.Late {
			return map[bool]int{true: -1, false: 1}[a.Late]
		}
		return cmp.Or(cmp.Compare(slices.Index(occasionsToBuy, a.Buy), slices.Index(occasionsToBuy, b.Buy)), a.OrderBy.Compare(b.OrderBy))
	})
	p.Totals = totals(p.Shopping)
}

// needs lists how many new sets a decision takes, each by where it is wanted.
// What lies on the shelf comes along to a stop; otherwise the stop's own parts
// counter serves, where it has one.
func needs(d Decision, legs []Leg) []string {
	switch d.Action {
	case Carry:
		return []string{BuyCarry}
	case RenewBefore:
		if d.Spare {
			return []string{BuyBefore, BuyCarry}
		}
		return []string{BuyBefore}
	case RenewAtStop:
		if d.Shelf == 0 && slices.Contains(legs[d.Leg].Can, "parts") {
			return []string{BuyOnTheWay}
		}
		return []string{BuyCarry}
	default:
		return nil
	}
}

// topUpItem is the oil to take along for topping up, in whole bottles, at the
// price by volume of the fill.
func topUpItem(w *journey) (Item, bool) {
	n := int(math.Ceil(w.topUp/kind.Liter - 1e-9))
	if n <= 0 {
		return Item{}, false
	}
	part := w.on[profiles.Oil]["engine"].Part
	room := topUpRoom(w.topUp)
	it := Item{
		Part: part.ID, Name: part.Oil.Grade + " for topping up", Buy: BuyCarry, Count: n, As: kind.LiterBottle,
		Volume: room[0], Mass: room[1],
	}
	if part.Oil.Quantity > 0 {
		it.Price = math.Round(float64(part.Price) * float64(n) * kind.Liter / float64(part.Oil.Quantity))
	}
	return it, true
}

// totals adds up what is still to be paid, by occasion.
func totals(items []Item) []Total {
	var out []Total
	for _, buy := range occasionsToBuy {
		t, any := Total{Buy: buy}, false
		for _, it := range items {
			if it.Buy == buy {
				any = true
				t.Price += it.toPay()
			}
		}
		if any {
			out = append(out, t)
		}
	}
	return out
}

// toPay is what an item still costs.
func (it Item) toPay() float64 {
	if it.OnShelf {
		return 0
	}
	return it.Price
}
