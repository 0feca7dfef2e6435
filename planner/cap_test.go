package planner

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
)

// TestCap: by the simulation, with the credit that the checklist gives, no set
// that goes is driven past its limit unnoticed more often than the cap allows,
// nor more often than the plan says.
func TestCap(t *testing.T) {
	const most = 0.02 // the stock cap
	randomcar.Check(t, 8, func(t *rapid.T) {
		simulated(t, randomcar.Draw(t, 0), func(p jsonPlan, by trials) (wrong []string) {
			for _, s := range p.Sets {
				d := s.Decision
				if !s.Critical || s.Kind == profiles.Fluid || len(s.Stop) > 0 || d.Action == plan.DoNotTake {
					continue
				}
				_, got := by.simulate(p, s)
				if got > most+by.errorsOf(most) {
					wrong = append(wrong, fmt.Sprintf("%s, %s: %.4f, over the cap; the plan says %.4f. %s", s.ID, d.Action, got, d.PUnsafe, d.Reason))
				}
				if got > d.PUnsafe+by.errorsOf(d.PUnsafe) {
					wrong = append(wrong, fmt.Sprintf("%s, %s: %.4f of the trips, the plan says %.4f", s.ID, d.Action, got, d.PUnsafe))
				}
			}
			return wrong
		})
	})
}
