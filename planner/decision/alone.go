package decision

import (
	"math"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
)

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
