package standing

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// Jobs are what a plan has done from where it stands, tonight first.
func Jobs(p *plan.Plan) []plan.Job {
	var out []plan.Job
	for _, s := range p.Sets {
		torque := ""
		if kind.Of(s.Kind).WheelsOff {
			torque = ", wheel torque, again within the first hour"
		}
		switch d := s.Decision; {
		case d.Action == plan.ReplaceBefore:
			out = append(out, plan.Job{When: p.First(), What: "new " + s.Name + torque})
		case d.Action == plan.Bring && d.Leg >= 0:
			out = append(out, plan.Job{When: "before " + p.Legs[d.Leg].Name, What: "spare " + s.Name + " on" + torque})
		}
	}
	for _, w := range p.Answer.Stops {
		when := w.Name
		if !w.Day.IsZero() {
			when = w.Day.Format("Mon 2 Jan, ") + when
		}
		out = append(out, plan.Job{When: when, What: fmt.Sprintf("new %s; left alone, %s chance to %s", strings.Join(w.Sets, ", "), quantity.Chance(w.Skipped), w.End)})
	}
	return out
}

// GoOut is the verdict on the sessions left.
func GoOut(p *plan.Paddock) (verdict, why string) {
	var unread []string
	for _, s := range p.Sets {
		switch {
		case len(s.Stop) > 0:
			return plan.No, s.Name + ": " + strings.Join(s.Stop, "; ")
		case !s.On && s.Read == nil && s.Found == "":
			unread = append(unread, s.Name)
		case !s.On:
			return plan.No, s.Name + ": " + short(p, s)
		}
	}
	if len(unread) > 0 {
		return plan.CantSay, "read the " + plan.Listed(unread) + " first: as nobody has, it may not last"
	}
	least := slices.MinFunc(p.Sets, func(a, b plan.PaddockSet) int { return cmp.Compare(a.Chance, b.Chance) })
	return plan.Yes, fmt.Sprintf("least sure: %s, %s", least.Name, quantity.Chance(least.Chance))
}

// short says by which rule a set is not on for the sessions left.
func short(p *plan.Paddock, s plan.PaddockSet) string {
	if s.Chance >= p.Least {
		return fmt.Sprintf("%s chance to be driven past its limit unnoticed in the %d left, over the cap of %s, %s first", quantity.ChanceOver(s.Unsafe, p.Cap), p.Left, quantity.Stated(p.Cap), s.Where)
	}
	return fmt.Sprintf("%s chance to last the %d left, %s first", quantity.Chance(s.Chance), p.Left, s.Where)
}
