package planner

import (
	"cmp"
	"fmt"
	"strings"

	"example.com/tripwear/planner/decision"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// advise puts in a sentence how many days a set is enough for, and what to do
// for the first number of days that it is not, and for those asked.
func advise(stays []stay, i, asked int, safety, sure float64) string {
	enough, fails := 0, -1
	for k, st := range stays {
		if !holdsOut(st.sets[i], safety) {
			fails = k
			break
		}
		enough = st.days
	}
	if fails < 0 {
		if sure >= plan.MostDays {
			return fmt.Sprintf("enough for %s, and 90 %% of cases last more than %d", quantity.Days(enough), plan.MostDays)
		}
		return fmt.Sprintf("enough for %s; 90 %% of cases last about %s days", quantity.Days(enough), quantity.Down(sure, 1))
	}
	st := stays[fails]
	s := st.sets[i]
	if len(s.Stop) > 0 {
		return "not to be driven on: " + strings.Join(s.Stop, "; ")
	}
	first := st.remedy(i)
	odds := fmt.Sprintf("(chance to %s %s", decision.EndsWith(s), quantity.Chance(s.Decision.PAsIs))
	if len(s.Levels) > 1 {
		odds += ", " + s.Decision.Where + " first"
	}
	odds += ")"
	text := fmt.Sprintf("enough for %s; for %s %s %s", quantity.Days(enough), quantity.InWords(st.days), first, odds)
	if enough == 0 {
		text = fmt.Sprintf("not enough for one day: %s %s", first, odds)
	}
	for _, later := range stays[fails+1:] {
		if then := later.remedy(i); later.days == asked && then != first {
			text += fmt.Sprintf("; for %s %s (%s)", quantity.InWords(asked), then, quantity.Chance(later.sets[i].Decision.PAsIs))
		}
	}
	return text
}

// remedy is what the plan for those days does about a set, in words.
func (st stay) remedy(i int) string {
	s := st.sets[i]
	spare, before := "pack a ", "replace before leaving"
	if st.paddock {
		spare, before = "have ready a ", "change it before going out"
	}
	spare += s.Spec.Spare
	switch d := s.Decision; d.Action {
	case plan.Bring:
		if d.Leg >= 0 {
			return spare + ", to be on before " + st.Legs[d.Leg].Name
		}
		return spare
	case plan.ReplaceBefore:
		if d.Spare {
			return before + " and " + spare
		}
		return before
	case plan.DoNotTake:
		return "nothing makes it safe"
	case plan.Run, plan.Watch, plan.ReplaceAtStop: // a weekend has no stop
	}
	return cmp.Or(s.Spec.Watching, "look before each session")
}
