package standing

import (
	"fmt"
	"slices"
	"strings"

	"example.com/tripwear/planner/plan"
)

// Session is the verdict on the next session alone.
func Session(p *plan.Paddock) (verdict, why string) {
	var unread []string
	for _, s := range p.Sets {
		switch {
		case len(s.Stop) > 0:
			return plan.No, s.Name + ": " + strings.Join(s.Stop, "; ")
		case !s.Next && s.Read == nil && s.Found == "":
			unread = append(unread, s.Name)
		case !s.Next:
			return plan.No, s.Name + " may not last it, " + s.Where + " first"
		}
	}
	if len(unread) > 0 {
		return plan.CantSay, "read the " + plan.Listed(unread) + " first"
	}
	if p.On {
		return plan.Yes, "it and all that are left of the day"
	}
	i := slices.IndexFunc(p.Sets, func(s plan.PaddockSet) bool { return !s.On }) // worst first
	weak := p.Sets[i]
	if weak.Sessions >= p.Left { // what does not hold is being noticed in time
		return plan.Yes, fmt.Sprintf("it; read the %s again before you drive all %d", weak.Name, p.Left)
	}
	return plan.Yes, fmt.Sprintf("it, and of the %d left as many as the %s last: %d", p.Left, weak.Name, weak.Sessions)
}

// Tomorrow is the first circuit day of a plan after a leg; nil where there is none.
func Tomorrow(p *plan.Plan, after int) *plan.NextDay {
	i := slices.IndexFunc(p.Answer.Days, func(d plan.CircuitDay) bool { return d.Leg > after })
	if i < 0 {
		return nil
	}
	d := p.Answer.Days[i]
	out := &plan.NextDay{Name: p.Legs[d.Leg].Name, Day: p.Legs[d.Leg].Start, Verdict: plan.Yes, Fit: d.Fit, Turns: d.Turns}
	if !p.Safe {
		out.Verdict, out.Why, out.Fit, out.Turns = p.Verdict, p.Why, nil, nil
	}
	return out
}
