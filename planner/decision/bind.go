package decision

import (
	"fmt"
	"math"
	"strings"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// everywhere is where parts can be fitted at all.
var everywhere = []string{"paddock", "shop", "home"}

// bind corrects what keeps a set from being safe where it is that the part
// cannot be fitted where it would have to be.
func (c chooser) bind(op *option) {
	if op.Bind != plan.BindCap {
		return
	}
	if fits := c.fittedAnywhere(); fits != nil && fits.ruledOut == "" {
		op.Bind, op.hint = plan.BindFitted, fits.place(c.way.Legs)
	}
}

// fittedAnywhere is the safest option, could the part be fitted everywhere.
func (c chooser) fittedAnywhere() *option {
	set := *c.set
	set.FitAt = everywhere
	c.set = &set
	var best *option
	for _, op := range c.options() {
		if op.ruledOut == "" && (best == nil || op.PUnsafe < best.PUnsafe) {
			best = &op
		}
	}
	return best
}

// place is where an option has the set fitted.
func (op option) place(legs []plan.Leg) string {
	if op.Action == plan.ReplaceAtStop {
		return "at " + legs[op.Leg].Name
	}
	return "in the paddock"
}

// refusal says why a set is not to be taken.
func (c chooser) refusal(op *option) string {
	why := c.refused(op)
	if c.set.Hangs != "" && op.Bind != plan.BindFound {
		why += "; " + c.set.Hangs
	}
	return why
}

func (c chooser) refused(op *option) string {
	switch op.Bind {
	case plan.BindLate:
		if c.way.Under != nil {
			return c.worn(op.PAsIs) + ", and the trunk holds no other set"
		}
		o := OrderFor(c.way.Depart, c.part, plan.BuyBefore)
		return strings.TrimSpace(fmt.Sprintf("%s, and a new set ordered today, %s, comes too late: it takes %s, so it was to be ordered by %s, there by %s %s",
			c.worn(op.PAsIs), dayOf(c.today), days(c.part.LeadTime), dayOf(o.By), dayOf(o.There), o.For))
	case plan.BindRoom:
		return "a spare makes it safe, but the trunk has no room for it beside the luggage and what comes first"
	case plan.BindFitted:
		return fmt.Sprintf("a new set fitted %s makes it safe, but this part can be fitted at %s only", op.hint, strings.Join(c.part.Fit, " and "))
	case plan.BindFound: // what was found is the reason
		return ""
	case plan.BindCap:
	}
	limit := float64(c.safety.Cap)
	return fmt.Sprintf("nothing at hand makes it safe: at best %s chance to drive past the limit unnoticed, over the cap of %s", quantity.ChanceOver(op.PUnsafe, limit), quantity.Stated(limit))
}

func dayOf(t interface{ Format(string) string }) string { return t.Format("2 Jan 2006") }

// days is a lead time in words.
func days(lead quantity.Duration) string {
	n := workingDays(lead)
	return fmt.Sprintf("%d %s", n, plan.Plural(n, "working day"))
}

// due is where on a road a set whose end is not dangerous is due, of which more
// likely than not no stop and no change before leaving keeps it within its limit:
// where half of the draws have passed its margin, and before the circuit where they
// pass it on one. Nil where it need not be changed, or is due before leaving.
func due(s *projection.Set, legs []plan.Leg, past float64) *plan.Due {
	if past <= 0.5 {
		return nil
	}
	p := s.Levels[0]
	margin := (p.Margin - p.Limit) / (p.New - p.Limit)
	var last *plan.Due
	before := lifeLeft(s)
	for j, l := range legs {
		after := s.After[j].P50
		if l.Kind == profiles.RoadLeg {
			if after <= margin && before > after {
				return &plan.Due{Leg: j, Meters: float64(l.Meters * math.Max(0, (before-margin)/(before-after)))}
			}
			last = &plan.Due{Leg: j, Meters: l.Meters}
		} else if after <= margin {
			return last
		}
		before = after
	}
	return last
}
