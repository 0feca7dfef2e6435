package decision

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/tripwear/planner/plan"
)

// TestTopUpTakesRoom: the oil to be added has its room in the boot before any
// spare. Two liters are two bottles of 1.2 L and 0.95 kg as packed.
func TestTopUpTakesRoom(t *testing.T) {
	f, _ := demo(t, "juniper")
	got := trunkLimit(f.Car, 1.5e-3)
	want := [2]float64{(180 - 95 - 2.4) * 1e-3, 90 - 40 - 1.9}
	if diff := cmp.Diff(want, got, cmpopts.EquateApprox(0, 1e-9)); diff != "" {
		t.Error(diff)
	}
}

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
		{plan.Decision{Action: plan.Bring}, []string{plan.BuyCarry}},
		{plan.Decision{Action: plan.ReplaceBefore}, []string{plan.BuyBefore}},
		{plan.Decision{Action: plan.ReplaceBefore, Spare: true}, []string{plan.BuyBefore, plan.BuyCarry}},
		{plan.Decision{Action: plan.ReplaceAtStop, Leg: 0}, []string{plan.BuyOnTheWay}},
		{plan.Decision{Action: plan.ReplaceAtStop, Leg: 0, Shelf: 1}, []string{plan.BuyCarry}},
		{plan.Decision{Action: plan.ReplaceAtStop, Leg: 1}, []string{plan.BuyCarry}},
	} {
		if diff := cmp.Diff(c.want, Needs(c.d, legs)); diff != "" {
			t.Errorf("%+v:\n%s", c.d, diff)
		}
	}
}
