package decision

import (
	"math"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
)

// What a spare costs beside its price. Engineering choices.
const (
	paddockWork = 2.0  // how much longer a job takes in a paddock than at home
	unusedSpare = 0.15 // share of its price that a spare costs which comes home unused
	packing     = 0.5  // h to pack a spare and to unpack it
	errand      = 0.25 // h to order a set and to take it in
)

// price works out what an option is expected to cost: the life of the old set
// that is thrown away, the labor, what fitting a spare in the paddock takes,
// and being stopped short. A set worn out on the trip costs the same whatever
// is done, so it does not count. Visits to a shop are shared by sets and
// counted by the choice.
func (c chooser) price(op *option) {
	costs := c.way.Folder.Car.Costs
	op.Cost = 0
	if !c.at.AtHome { // nobody is stopped short there
		op.Cost = float64(op.POut * max(float64(costs.Stranded), c.set.Stranded))
	}
	op.Labor = float64(op.hours * op.rate / 3600)
	op.Cost += op.Labor + float64(errand*float64(op.bought)*float64(costs.Hour))
	if op.site != noSite {
		op.Cost += float64(float64(c.part.Price) * c.lifeLeft(op.site))
	}
	op.Cost += float64(float64(c.part.Price) * op.thrown)
	if op.Action == plan.Bring || op.Spare {
		packs := packing
		if op.role == joins {
			packs = 0
		}
		op.Cost += float64((op.PNeed*paddockWork*float64(c.part.Hours)/3600 + packs) * float64(costs.Hour))
		if op.bought > 0 {
			op.Cost += float64((1 - op.PNeed) * unusedSpare * float64(c.part.Price))
		}
	}
	op.Cost += float64(op.margin * c.set.Spec.Overdue * float64(c.part.Price))
}

// lifeLeft is the share of the set's life that is left after a leg, or now.
func (c chooser) lifeLeft(leg int) float64 {
	left := c.asIs.before.P50
	switch {
	case leg >= 0:
		left = c.asIs.bands[leg].P50
	case c.at.First == 0:
		return lifeLeft(c.set)
	}
	return math.Min(1, math.Max(0, left))
}

// lifeLeft is the share of a set's life that is left now.
func lifeLeft(s *projection.Set) float64 {
	least := 1.0
	for _, p := range s.Levels {
		least = math.Min(least, (p.Start-p.Limit)/(p.New-p.Limit))
	}
	return math.Max(0, least)
}
