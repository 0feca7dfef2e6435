package lists

import (
	"fmt"
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
)

// Spend fills the budget: what the trip takes out of the purse as decided.
// The owner's own hours and the risk of being stopped short are costs too, but
// nobody sends a bill for them; they stand apart.
func Spend(p *plan.Plan, costs profiles.Costs) {
	travel(p, costs)
	for _, it := range p.Shopping {
		if pay := it.ToPay(); pay != 0 { // what is unknown too
			bill(p, away, plan.ForParts, it.Name, pay)
		}
	}
	own, stopped := 0.0, 0.0
	visited := map[int]bool{}
	for i, s := range p.Sets {
		d := s.Decision
		stopped += float64(d.POut * max(float64(costs.Stranded), s.Stranded))
		at := away
		if d.Action == plan.ReplaceAtStop {
			at = d.Leg
		}
		if d.Action == plan.ReplaceAtStop || d.Action == plan.ReplaceBefore && d.Shop {
			if !visited[at] {
				visited[at] = true
				bill(p, at, plan.ForVisits, where(p, at), float64(costs.Visit))
			}
		}
		labor := d.Labor - shared(p, i)
		switch {
		case !d.Shop:
			own += labor
		case labor > 0:
			bill(p, at, plan.ForLabor, s.Name, labor)
		}
	}
	done := "replaced"
	for _, s := range p.Swaps {
		own, done = own+float64(s.Seconds/3600*float64(costs.Hour)), "replaced and swapped"
	}
	p.Apart = []plan.Expense{
		{Leg: away, Kind: "own work", What: "your own hours for what is " + done + ", at what they are worth to you", Amount: own},
		{Leg: away, Kind: "stopped short", What: "being stopped short, chance times cost", Amount: stopped},
	}
}

// travel bills the road: fuel, fees and nights.
func travel(p *plan.Plan, costs profiles.Costs) {
	burnt, nights := 0.0, 0
	for _, l := range p.Legs {
		burnt += l.FuelUsed
		nights += l.Nights
	}
	bill(p, away, plan.ForFuel, "what the legs burn", burnt*float64(costs.Fuel))
	for j, l := range p.Legs {
		if l.Fee > 0 {
			name := l.Name
			if l.Circuit != "" {
				name = l.Circuit
			}
			bill(p, j, plan.ForFees, name, l.Fee)
		}
	}
	if nights > 0 {
		bill(p, away, plan.ForNights, fmt.Sprintf("%d away", nights), float64(nights)*float64(costs.Night))
	}
}

// away is where what no single leg costs is paid.
const away = -1

func bill(p *plan.Plan, leg int, kind, what string, amount float64) {
	p.Budget = append(p.Budget, plan.Expense{Kind: kind, What: what, Amount: amount, Leg: leg})
}

// where names a stop, or the shop at home.
func where(p *plan.Plan, leg int) string {
	if leg < 0 {
		return "shop at home"
	}
	return p.Legs[leg].Name
}

// shared is the labor that a set's replacement saves: with the caliper off, the
// smaller of an axle's two jobs is done within the larger.
func shared(p *plan.Plan, i int) float64 {
	mine := p.Sets[i]
	k := partner(p.Sets, i)
	if k < 0 {
		return 0
	}
	d := p.Sets[k].Decision
	if d.Action != mine.Decision.Action || d.Leg != mine.Decision.Leg || d.Action != plan.ReplaceBefore && d.Action != plan.ReplaceAtStop {
		return 0
	}
	if mine.Decision.Labor < d.Labor || i < k && mine.Decision.Labor == d.Labor { // of two as small, the first
		return mine.Decision.Labor
	}
	return 0
}

// partner is the set whose labor is shared with a set's; -1 where there is none.
func partner(sets []plan.Set, i int) int {
	with := kind.Partner(sets[i].ID)
	return slices.IndexFunc(sets, func(s plan.Set) bool { return s.ID == with })
}
