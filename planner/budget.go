package planner

import (
	"fmt"
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
)

// The kinds of expense.
const (
	ForFuel   = "fuel"
	ForFees   = "fees"
	ForNights = "nights"
	ForParts  = "parts to buy"
	ForLabour = "labour"
	ForVisits = "workshop visits"
)

// ExpenseKinds are the kinds of expense in the order of the budget.
var ExpenseKinds = []string{ForFuel, ForFees, ForNights, ForParts, ForLabour, ForVisits}

// Expense is one line of the budget, in the owner's currency.
type Expense struct {
	Kind   string  `json:"kind"`
	What   string  `json:"what"`
	Amount float64 `json:"amount"`
}

// Spend is what the expenses of one kind add up to, or of all where kind is "".
func (p *Plan) Spend(kind string) float64 {
	sum := 0.0
	for _, e := range p.Budget {
		if kind == "" || e.Kind == kind {
			sum += e.Amount
		}
	}
	return sum
}

// spend fills the budget: what the trip takes out of the purse as decided.
// The owner's own hours and the risk of being stopped short are costs too, but
// nobody sends a bill for them; they stand apart.
func (p *Plan) spend(costs profiles.Costs) {
	p.travel(costs)
	for _, it := range p.Shopping {
		if pay := it.toPay(); pay > 0 {
			p.bill(ForParts, it.Name, pay)
		}
	}
	own, stopped := 0.0, 0.0
	visited := map[int]bool{}
	for i, s := range p.Sets {
		d := s.Decision
		stopped += float64(d.POut * float64(costs.Stranded))
		if d.Action == RenewAtStop || d.Action == RenewBefore && d.Shop {
			if at := d.Leg; !visited[at] {
				visited[at] = true
				p.bill(ForVisits, p.where(at), float64(costs.Visit))
			}
		}
		labour := d.Labor - p.shared(i)
		switch {
		case !d.Shop:
			own += labour
		case labour > 0:
			p.bill(ForLabour, s.Name, labour)
		}
	}
	p.Apart = []Expense{
		{Kind: "own work", What: "your own hours for what is renewed, at what they are worth to you", Amount: own},
		{Kind: "stopped short", What: "being stopped short, chance times cost", Amount: stopped},
	}
}

// travel bills the road: fuel, fees and nights.
func (p *Plan) travel(costs profiles.Costs) {
	burnt, nights := 0.0, 0
	for _, l := range p.Legs {
		burnt += l.FuelUsed
		nights += l.Nights
	}
	p.bill(ForFuel, "what the legs burn", burnt*float64(costs.Fuel))
	for _, l := range p.Legs {
		if l.Fee > 0 {
			name := l.Name
			if l.Circuit != "" {
				name = l.Circuit
			}
			p.bill(ForFees, name, l.Fee)
		}
	}
	if nights > 0 {
		p.bill(ForNights, fmt.Sprintf("%d away", nights), float64(nights)*float64(costs.Night))
	}
}

func (p *Plan) bill(kind, what string, amount float64) {
	p.Budget = append(p.Budget, Expense{Kind: kind, What: what, Amount: amount})
}

// where names a stop, or the workshop at home.
func (p *Plan) where(leg int) string {
	if leg < 0 {
		return "workshop at home"
	}
	return p.Legs[leg].Name
}

// shared is the labour that a set's renewal saves: with the caliper off, the
// smaller of an axle's two jobs is done within the larger.
func (p *Plan) shared(i int) float64 {
	mine := p.Sets[i]
	k := partner(p.Sets, i)
	if k < 0 {
		return 0
	}
	d := p.Sets[k].Decision
	if d.Action != mine.Decision.Action || d.Leg != mine.Decision.Leg || d.Action != RenewBefore && d.Action != RenewAtStop {
		return 0
	}
	if mine.Decision.Labor < d.Labor || i < k && mine.Decision.Labor == d.Labor { // of two as small, the first
		return mine.Decision.Labor
	}
	return 0
}

// partner is the set whose labor is shared with a set's; -1 where there is none.
func partner(sets []Set, i int) int {
	with := kind.Partner(sets[i].ID)
	return slices.IndexFunc(sets, func(s Set) bool { return s.ID == with })
}
