package lists

import (
	"testing"

	"example.com/tripwear/planner/plan"
)

// In the rain after a stop where the tires are renewed the new tread counts,
// less what the legs since took: not what the old ones lost on the way there,
// nor the spare that may go on.
func TestTreadOnAWetLeg(t *testing.T) {
	p := plan.Point{Start: 4, New: 8, Loss: []float64{1, 0.5, 0, 0.25, 0.125}, After: []plan.Band{{P50: 3}, {P50: 2.5}, {P50: 2.4}, {P50: 2.2}, {P50: 2}}}
	for _, c := range []struct {
		what string
		d    plan.Decision
		j    int
		want float64
	}{
		{"run as they are", plan.Decision{Action: plan.Run, Leg: -1}, 3, 2.2},
		{"a spare carried", plan.Decision{Action: plan.Bring, Leg: 1}, 3, 2.2},
		{"renewed before leaving, first leg", plan.Decision{Action: plan.ReplaceBefore, Leg: -1}, 0, 7},
		{"renewed before leaving, fourth leg", plan.Decision{Action: plan.ReplaceBefore, Leg: -1}, 3, 6.25},
		{"on the way to the stop", plan.Decision{Action: plan.ReplaceAtStop, Leg: 2}, 1, 2.5},
		{"as far as the stop", plan.Decision{Action: plan.ReplaceAtStop, Leg: 2}, 2, 2.4},
		{"next leg after the stop", plan.Decision{Action: plan.ReplaceAtStop, Leg: 2}, 3, 7.75},
		{"one more", plan.Decision{Action: plan.ReplaceAtStop, Leg: 2}, 4, 7.625},
		{"renewed at a stop that comes first", plan.Decision{Action: plan.ReplaceAtStop, Leg: 0}, 1, 7.5},
	} {
		if got := level((plan.Set{Decision: c.d}), p, c.j); got != c.want {
			t.Errorf("%s: %g left, want %g", c.what, got, c.want)
		}
	}
}
