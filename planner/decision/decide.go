package decision

import (
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
)

// Decide projects every set, lists its options, chooses among all sets together,
// and explains. Until the choice sets are independent of one another, each with
// its own random stream.
func Decide(sets []*projection.Set, way *trip.Journey, today time.Time, d *projection.Draws) plan.Choice {
	m, best := choose(sets, way, today, d)
	choosers := make([]chooser, len(sets))
	small := projection.NewDraws(min(d.N, flipDraws), d.Seed)
	projection.Parallel(len(sets), func() func(int) {
		w, few := projection.NewWorker(d, way.Usages), projection.NewWorker(small, way.Usages)
		return func(i int) {
			c, op := newChooser(sets[i], w, way, today), m.chosen(best, i)
			choosers[i] = c
			op.Decision = sets[i].Decision
			op.Next = m.rival(best, i)
			if op.Action != plan.Run {
				op.Flip = c.flip(few, op.Action)
			}
			c.bind(&op)
			c.explain(&op)
			sets[i].Decision = op.Decision
		}
	})

	c := plan.Choice{Nodes: best.Nodes, LeftOut: m.leftOut(best), Turns: m.turns(choosers, best)}
	for i := range sets {
		if best.pick[i] == noOption {
			best.Cost -= noActionCost
			best.Bound -= noActionCost
		}
	}
	c.Cost, c.Bound = best.Cost, best.Bound
	return c
}

// Choose is Decide without its reasons: what is done about each set, and no more.
func Choose(sets []*projection.Set, way *trip.Journey, today time.Time, d *projection.Draws) {
	choose(sets, way, today, d)
}

func choose(sets []*projection.Set, way *trip.Journey, today time.Time, d *projection.Draws) (*menu, solution) {
	m := &menu{sets: sets, options: make([][]option, len(sets)), visit: float64(way.Folder.Car.Costs.Visit), limit: trunkLimit(way)}
	projection.Parallel(len(sets), func() func(int) {
		w := projection.NewWorker(d, way.Usages)
		return func(i int) {
			sets[i].ProjectAsIs(w, len(way.Legs))
			m.options[i] = newChooser(sets[i], w, way, today).options()
		}
	})

	m.shareSpares(way, today)
	m.shares = m.shelfShares()
	best := m.solve(m.limit, nil)
	for i, s := range sets {
		op := m.chosen(best, i)
		op.PAsIs = m.options[i][0].POut
		if op.Action == plan.Watch && !s.Critical {
			op.Due = due(s, way.Legs, op.POut)
		}
		s.Decision = op.Decision
		s.Unnoticed = m.options[i][0].PUnsafe
		if s.Critical && op.crossing > 0 {
			s.Caught = 1 - op.PUnsafe/op.crossing
		}
	}
	return m, best
}

// trunkLimit is what the trunk holds beside the luggage, the oil for topping up
// and the sets that are swapped: m3, kg.
func trunkLimit(way *trip.Journey) [2]float64 {
	car, taken := way.Folder.Car, trip.TopUpRoom(way.TopUp)
	for _, c := range way.Carried() {
		part := kind.Filled(way.Folder, way.Folder.Parts[c.On])
		taken[0], taken[1] = taken[0]+float64(part.Volume), taken[1]+float64(part.Weight)
	}
	return [2]float64{
		max(0, float64(car.Boot.Volume-car.Luggage.Volume)-taken[0]),
		max(0, float64(car.Boot.Payload-car.Luggage.Mass)-taken[1]),
	}
}

// rival is what the best plan without a set's chosen option gives it.
func (m *menu) rival(best solution, i int) *plan.Rival {
	mine := best.pick[i]
	if mine == noOption {
		return nil
	}
	chosen := m.options[i][mine]
	other := m.solve(m.limit, func(set int, op option) bool {
		return set == i && op.Action == chosen.Action && op.Leg == chosen.Leg && op.Spare == chosen.Spare
	})
	if other.pick[i] == noOption {
		return nil
	}
	op := m.options[i][other.pick[i]]
	return &plan.Rival{Action: op.Action, Leg: op.Leg, Spare: op.Spare, Extra: other.Cost - best.Cost, POut: op.POut}
}
