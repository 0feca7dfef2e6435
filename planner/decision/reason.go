package decision

import (
	"fmt"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/profiles/quantity"
)

// explain completes an option's reason and where to look.
func (c chooser) explain(op *option) {
	s, legs := c.set, c.way.Legs
	first := s.Levels[s.First]
	op.Where = first.Place
	if first.Zone != "" && first.Measure != kind.Crack {
		op.Where += " " + first.Zone
	}
	asIs := quantity.Chance(op.PAsIs)
	risk := EndsWith(s)
	defer func() { op.Reason = withFindings(s, op, c.newSetEnds) }()
	switch op.Action {
	case plan.Run:
		op.Reason = fmt.Sprintf("it comes home with about %s of its life; chance to %s %s", quantity.Life(op.LifeEnd), risk, asIs)
		if s.Lifetime {
			op.Reason = fmt.Sprintf("chance to %s on this trip %s", risk, asIs)
		}
	case plan.Watch:
		op.Reason = fmt.Sprintf("%s chance to %s, most of it %s; look at %s before each session and at each fuel stop", asIs, risk, c.when(), op.Where)
		if op.PAsIs <= float64(c.safety.Run) {
			op.Reason = fmt.Sprintf("it passes its margin %s but keeps off the limit (chance %s); %s first", c.marginLeg(), asIs, op.Where)
		}
		if !s.Critical {
			op.Reason = fmt.Sprintf("it passes its interval %s but stays under its ceiling (chance past it %s): change it at home and sample it then", c.marginLeg(), asIs)
		}
	case plan.Bring:
		fit := "fit it when the checks show the margin"
		if op.Leg >= 0 {
			fit += ", at the latest before " + legs[op.Leg].Name
		}
		op.Reason = fmt.Sprintf("%s chance to %s, %s first; it can be fitted in the paddock: %s", asIs, risk, op.Where, fit)
	case plan.ReplaceAtStop:
		op.Reason = fmt.Sprintf("left alone %s chance to %s, up to %s only %s; new from there %s",
			asIs, risk, legs[op.Leg].Name, quantity.Chance(s.After[op.Leg].PLimit), c.newSetEnds(op))
		if !s.Critical {
			op.Reason = fmt.Sprintf("left alone it passes its interval %s and has %s chance to %s by home; at the stop it has not yet (chance %s)",
				c.marginLeg(), asIs, risk, quantity.Chance(s.After[op.Leg].PLimit))
		}
	case plan.ReplaceBefore:
		op.Reason = fmt.Sprintf("as it stands %s chance to %s, %s first, most of it %s; new %s",
			asIs, risk, op.Where, c.when(), c.newSetEnds(op))
		if op.Spare {
			op.Reason += fmt.Sprintf(", and one set may not do (chance of needing a second %s)", quantity.Chance(op.PNeed))
		}
	case plan.DoNotTake:
		op.Reason = fmt.Sprintf("nothing makes it safe: at best %s chance of driving across the limit unnoticed, over the cap of %s", quantity.Chance(op.PUnsafe), quantity.Chance(float64(c.safety.Cap)))
	}
}

// newSetEnds says how a new set comes home.
func (c chooser) newSetEnds(op *option) string {
	if c.set.Lifetime {
		return "its chance to fail is " + quantity.Chance(op.POut)
	}
	return fmt.Sprintf("it comes home with about %s of its life", quantity.Life(op.LifeEnd))
}

// EndsWith says in a verb what the set's life ends with, such as "reach the limit".
func EndsWith(s *projection.Set) string {
	switch s.Levels[s.First].Measure {
	case kind.HubLife:
		return "fail"
	case kind.OilLife:
		return "pass its ceiling"
	case kind.BoilMargin:
		return "boil"
	default:
		return "reach the limit"
	}
}

// when names the leg in which the limit is most likely crossed.
func (c chooser) when() string {
	best, most := -1, 0.0
	for j, b := range c.set.After {
		if step := b.PLimit - previous(c.set.After, j); step > most {
			best, most = j, step
		}
	}
	if best < 0 {
		return "nowhere"
	}
	return "on " + c.way.Legs[best].Name
}

// marginLeg names the leg in which the median passes the margin.
func (c chooser) marginLeg() string {
	for j, b := range c.set.After {
		if b.PMargin > 0.5 {
			return "on " + c.way.Legs[j].Name
		}
	}
	return "late"
}

// withFindings puts what was seen before a reason, and in its place where it forbids
// to drive.
func withFindings(s *projection.Set, op *option, renewed func(*option) string) string {
	switch {
	case len(s.Stop) > 0 && op.Action == plan.ReplaceBefore:
		return fmt.Sprintf("%s; it does not leave like this, whatever the forecast says; new %s", strings.Join(s.Stop, "; "), renewed(op))
	case len(s.Stop) > 0:
		return strings.Join(s.Stop, "; ") + "; it does not leave like this, whatever the forecast says"
	case s.Watched:
		return strings.Join(s.Seen, "; ") + "; " + op.Reason
	default:
		return op.Reason
	}
}
