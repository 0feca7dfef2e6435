package planner

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"example.com/tripwear/profiles"
)

var occasionsToBuy = []string{BuyBefore, BuyCarry, BuyOnTheWay}

// shop fills the shopping list from the decisions and adds it up.
func (p *Plan) shop(sets []*set, f *profiles.Folder, b *builder, today time.Time) {
	for _, s := range sets {
		part := f.Parts[s.Part]
		shelf := s.Decision.Shelf
		for _, buy := range needs(s.Decision, p.Legs) {
			it := Item{
				Set: s.ID, Part: s.Part, Name: fmt.Sprintf("%s (%s)", part.Name, s.Name), Buy: buy, Wheels: wheelsOff(part.Kind),
				Price: float64(part.Price), Volume: float64(part.Volume), Mass: float64(part.Weight), Tools: part.Tools,
			}
			it.bought(part)
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
	p.TopUp = b.topUp
	if it, ok := topUpItem(b); ok {
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

// bought fills in what one buys of a part. Common practice, no source.
func (it *Item) bought(part profiles.Part) {
	it.Count = 1
	switch part.Kind {
	case profiles.Tire:
		it.As, it.With = "pair", "mounted and balanced, new valves"
	case profiles.Pads:
		it.As = "axle set"
	case profiles.Rotors:
		it.As = "pair"
	case profiles.Bearing:
		it.As, it.With = "hub", "its nut where the maker wants a new one"
	case profiles.Oil:
		it.As, it.Fluid, it.With = "fill", float64(part.Oil.Quantity), "filter and drain washer"
	default:
		it.As = bottle
		it.Count = max(1, int(math.Ceil(float64(part.Fluid.Quantity)/bottleSize-1e-9)))
	}
}

// wheelsOff says whether wheels come off to fit a kind of part.
func wheelsOff(k profiles.Kind) bool { return k != profiles.Oil && k != profiles.Fluid }

// topUpItem is the oil to take along for topping up, in whole bottles, at the
// price by volume of the fill.
func topUpItem(b *builder) (Item, bool) {
	n := int(math.Ceil(b.topUp/litre - 1e-9))
	if n <= 0 {
		return Item{}, false
	}
	part := b.parts[profiles.Oil]["engine"].part
	room := topUpRoom(b.topUp)
	it := Item{
		Part: part.ID, Name: part.Oil.Grade + " for topping up", Buy: BuyCarry, Count: n, As: litreBottle,
		Volume: room[0], Mass: room[1],
	}
	if part.Oil.Quantity > 0 {
		it.Price = math.Round(float64(part.Price) * float64(n) * litre / float64(part.Oil.Quantity))
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
