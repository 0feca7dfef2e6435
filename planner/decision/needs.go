package decision

import (
	"slices"

	"example.com/tripwear/planner/plan"
)

// Needs lists the new sets that a decision takes, each by where it is wanted.
// A stop gets what lies on the shelf, otherwise what its own parts counter
// sells, where it has one.
func Needs(d plan.Decision, legs []plan.Leg) []string {
	switch d.Action {
	case plan.Bring:
		if d.Shares != "" {
			return nil
		}
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
	case plan.Run, plan.Watch, plan.DoNotTake:
	}
	return nil
}
