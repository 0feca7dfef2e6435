package planner

import (
	"fmt"
	"math"
	"strings"
)

// Chance prints a probability at the precision it has.
func Chance(p float64) string {
	switch {
	case p < 0.005:
		return "under 1 %"
	case p >= 0.995:
		return "over 99 %"
	default:
		return fmt.Sprintf("%.0f %%", math.Round(100*p)) // half up, as the workbook does
	}
}

// Life prints a share of life left; what is below its limit has none.
func Life(share float64) string { return fmt.Sprintf("%.0f %%", 100*math.Max(0, share)) }

// explain completes an option's reason and where to look.
func (c chooser) explain(op *option) {
	s, legs := c.set, c.way.legs
	first := s.points[s.First]
	op.Where = first.Place
	if first.Zone != "" && first.Measure != Crack {
		op.Where += " " + first.Zone
	}
	asIs := Chance(op.PAsIs)
	risk := c.end()
	defer func() { op.Reason = s.found(op, c.renewed) }()
	switch op.Action {
	case Run:
		op.Reason = fmt.Sprintf("it comes home with about %s of its life; chance to %s %s", Life(op.LifeEnd), risk, asIs)
		if s.lifetime {
			op.Reason = fmt.Sprintf("chance to %s on this trip %s", risk, asIs)
		}
	case Watch:
		op.Reason = fmt.Sprintf("%s chance to %s, most of it %s; look at %s before each session and at each fuel stop", asIs, risk, c.when(), op.Where)
		if op.PAsIs <= float64(c.safety.Run) {
			op.Reason = fmt.Sprintf("it passes its margin %s but keeps off the limit (chance %s); %s first", c.marginLeg(), asIs, op.Where)
		}
		if !s.Critical {
			op.Reason = fmt.Sprintf("it passes its interval %s but stays under its ceiling (chance past it %s): change it at home and sample it then", c.marginLeg(), asIs)
		}
	case Carry:
		fit := "fit it when the checks show the margin"
		if op.Leg >= 0 {
			fit += ", at the latest before " + legs[op.Leg].Name
		}
		op.Reason = fmt.Sprintf("%s chance to %s, %s first; it can be fitted in the paddock: %s", asIs, risk, op.Where, fit)
	case RenewAtStop:
		op.Reason = fmt.Sprintf("left alone %s chance to %s, up to %s only %s; new from there %s",
			asIs, risk, legs[op.Leg].Name, Chance(s.After[op.Leg].PLimit), c.renewed(op))
		if !s.Critical {
			op.Reason = fmt.Sprintf("left alone it passes its interval %s and has %s chance to %s by home; at the stop it has not yet (chance %s)",
				c.marginLeg(), asIs, risk, Chance(s.After[op.Leg].PLimit))
		}
	case RenewBefore:
		op.Reason = fmt.Sprintf("as it stands %s chance to %s, %s first, most of it %s; new %s",
			asIs, risk, op.Where, c.when(), c.renewed(op))
		if op.Spare {
			op.Reason += fmt.Sprintf(", and one set may not do (chance of needing a second %s)", Chance(op.PNeed))
		}
	case DoNotTake:
		op.Reason = fmt.Sprintf("nothing makes it safe: at best %s chance of driving across the limit unnoticed, over the cap of %s", Chance(op.PUnsafe), Chance(float64(c.safety.Cap)))
	}
}

// renewed says how a new set comes home.
func (c chooser) renewed(op *option) string {
	if c.set.lifetime {
		return "its chance to fail is " + Chance(op.POut)
	}
	return fmt.Sprintf("it comes home with about %s of its life", Life(op.LifeEnd))
}

// end names what the set's life ends with.
func (c chooser) end() string {
	switch c.set.points[c.set.First].Measure {
	case HubLife:
		return "fail"
	case OilLife:
		return "pass its ceiling"
	case BoilMargin:
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
	return "on " + c.way.legs[best].Name
}

// marginLeg names the leg in which the median passes the margin.
func (c chooser) marginLeg() string {
	for j, b := range c.set.After {
		if b.PMargin > 0.5 {
			return "on " + c.way.legs[j].Name
		}
	}
	return "late"
}

// found puts what was seen before a reason, and in its place where it forbids
// to drive.
func (s *set) found(op *option, renewed func(*option) string) string {
	switch {
	case len(s.Stop) > 0 && op.Action == RenewBefore:
		return fmt.Sprintf("%s; it does not leave like this, whatever the forecast says; new %s", strings.Join(s.Stop, "; "), renewed(op))
	case len(s.Stop) > 0:
		return strings.Join(s.Stop, "; ") + "; it does not leave like this, whatever the forecast says"
	case s.watched:
		return strings.Join(s.Seen, "; ") + "; " + op.Reason
	default:
		return op.Reason
	}
}
