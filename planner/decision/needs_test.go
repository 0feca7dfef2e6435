package decision

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/planner/plan"
)

// TestWhereItIsBought: what is on the shelf comes along to a stop; otherwise the
// stop's counter serves, where it has one.
func TestWhereItIsBought(t *testing.T) {
	legs := []plan.Leg{{Can: []string{"shop", "parts"}}, {Can: []string{"shop"}}}
	for _, c := range []struct {
		d    plan.Decision
		want []string
	}{
		{plan.Decision{Action: plan.Run}, nil},
		{plan.Decision{Action: plan.Watch}, nil},
		{plan.Decision{Action: plan.DoNotTake}, nil},
		{plan.Decision{Action: plan.Bring}, []string{plan.BuyBring}},
		{plan.Decision{Action: plan.ReplaceBefore}, []string{plan.BuyBefore}},
		{plan.Decision{Action: plan.ReplaceBefore, Spare: true}, []string{plan.BuyBefore, plan.BuyBring}},
		{plan.Decision{Action: plan.ReplaceAtStop, Leg: 0}, []string{plan.BuyOnTheWay}},
		{plan.Decision{Action: plan.ReplaceAtStop, Leg: 0, Shelf: 1}, []string{plan.BuyBring}},
		{plan.Decision{Action: plan.ReplaceAtStop, Leg: 1}, []string{plan.BuyBring}},
	} {
		if diff := cmp.Diff(c.want, Needs(c.d, legs)); diff != "" {
			t.Errorf("%+v:\n%s", c.d, diff)
		}
	}
}
