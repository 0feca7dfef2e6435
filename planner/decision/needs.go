package decision

import (
	"slices"

	"example.com/tripwear/planner/plan"
)

// Needs lists how many new sets a decision takes, each by where it is wanted.
// What lies on the shelf comes along to a stop; otherwise the stop's own parts
// counter serves, where it has one.
func Needs(d plan.Decision, legs []plan.Leg) []string {
	switch d.Action {
	case plan.Bring:
		return []string{plan.BuyBring}
	case plan.ReplaceBefore:
		if d.Spare {
			return []string{plan.BuyBefore, plan.BuyBring}
		}
		return []string{plan.BuyBefore}
	case plan.ReplaceAtStop:
		if d.Shelf == 0 && slices.Contains(legs[d.Leg].Can, "parts") {
			return []string{plan.BuyOnTheWay}
		}
		return []string{plan.BuyBring}
	default:
		return nil
	}
}
