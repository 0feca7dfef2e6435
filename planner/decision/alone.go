package decision

import (
	"math"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
)

// Regret is how much more a choice that was made without a reading is expected to
// cost than the best one after it, of a set as read: its own, whatever the others
// want. It is 0 where nothing is left to choose. It projects the set.
func Regret(s *projection.Set, w *projection.Worker, way *trip.Journey, today time.Time, made plan.Decision) float64 {
	s.After = w.Outcome(s, 0, true)
	c := newChooser(s, w, way, today)
	best, same := math.Inf(1), math.Inf(1)
	for _, op := range c.options() {
		if op.ruledOut == "" {
			best = min(best, op.Cost)
		}
		if goesOn(op.Action) && goesOn(made.Action) || op.Action == made.Action && op.Spare == made.Spare && (op.Action != plan.ReplaceAtStop || op.Leg == made.Leg) {
			same = min(same, op.Cost)
		}
	}
	if math.IsInf(same, 1) && made.Action == plan.Bring { // it would come home unused
		unused := c.asItIs()
		unused.Action, unused.PNeed, unused.bought = plan.Bring, 0, 1-made.Shelf
		c.price(&unused)
		same = unused.Cost
	}
	if math.IsInf(best, 1) || math.IsInf(same, 1) {
		return 0
	}
	return max(0, same-best)
}

// Alone is a set's own cheapest safe decision, whatever the others want of
// trunk, shelf and shops. It projects the set.
func Alone(s *projection.Set, w *projection.Worker, way *trip.Journey, today time.Time) plan.Decision {
	s.After = w.Outcome(s, 0, true)
	options := newChooser(s, w, way, today).options()
	best := option{Decision: plan.Decision{Action: plan.DoNotTake, Cost: math.Inf(1)}}
	for _, op := range options {
		if op.ruledOut == "" && op.Cost < best.Cost {
			best = op
		}
	}
	best.PAsIs = options[0].POut
	return best.Decision
}
