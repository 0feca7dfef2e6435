package decision

import (
	"fmt"
	"math"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/profiles/quantity"
)

// explain completes an option's reason and where to look first.
func (c chooser) explain(op *option) {
	s, legs := c.set, c.way.Legs
	first := s.Levels[s.First]
	op.Where = first.Place
	if first.Zone != "" && first.Measure != kind.Crack {
		op.Where += " " + first.Zone
	}
	whereFirst := ", " + op.Where + " first"
	if s.Spec.Counted { // its limit says it
		whereFirst = ""
	}
	asIs := quantity.Chance(op.PAsIs)
	if math.Abs(op.PAsIs-float64(c.safety.Run)) <= printed {
		asIs = "about " + asIs
	}
	risk := EndsWith(s)
	defer func() { op.Reason = withFindings(s, op, c.newSetEnds) }()
	switch op.Action {
	case plan.Run:
		op.Reason = fmt.Sprintf("it comes home with about %s of its life; %s chance to %s", quantity.Life(op.LifeEnd), asIs, risk)
		if s.Lifetime {
			op.Reason = fmt.Sprintf("%s chance to %s on this trip", asIs, risk)
		}
	case plan.Watch:
		op.Reason = fmt.Sprintf("%s chance to %s, most likely %s%s", asIs, risk, c.when(), c.lookAt(op))
		if !s.Lifetime && c.small(op.PAsIs) && (s.Watched || s.After[c.last()].PMargin > 0.5) {
			passes := "passes its margin " + c.marginLeg()
			if first.Start <= first.Margin {
				passes = "is past its margin already"
			}
			op.Reason = fmt.Sprintf("it %s but should stay off the limit (%s chance to reach it)%s", passes, asIs, c.lookAt(op))
		}
		if !s.Critical {
			op.Reason = fmt.Sprintf("%s but should stay under its %s (%s chance to pass it): %s", c.early(), s.Spec.Late, asIs, s.Spec.Watching)
			if op.POut > 0.5 {
				how := fmt.Sprintf("%s chance to %s by home", asIs, risk)
				if now := c.pastNow(); now != "" {
					how = now
				}
				op.Reason = how + ", and nothing that the trip allows keeps it under"
				if op.Due != nil {
					op.Reason += ": it takes a stop for a change"
				}
			}
		}
	case plan.Bring:
		fit := "when the checks show the margin"
		if op.Leg >= 0 {
			fit += ", at the latest before " + legs[op.Leg].Name
		}
		op.Reason = fmt.Sprintf("%s chance to %s%s; fit the spare in the paddock %s", asIs, risk, whereFirst, fit)
		if op.role != alone {
			op.Reason += "; one spare serves both sides"
		}
	case plan.ReplaceAtStop:
		op.Reason = fmt.Sprintf("%s, but only %s up to %s; a new set from there %s",
			c.worn(op.PAsIs), quantity.Chance(s.After[op.Leg].PLimit), legs[op.Leg].Name, c.newSetEnds(op))
		if op.Watched {
			op.Reason += c.lookAt(op)
		}
		if !s.Critical {
			op.Reason = fmt.Sprintf("%s, with %s chance to %s by home but %s up to the stop",
				c.early(), asIs, risk, quantity.Chance(s.After[op.Leg].PLimit))
		}
	case plan.ReplaceBefore:
		how := fmt.Sprintf("%s%s, most likely %s", c.worn(op.PAsIs), whereFirst, c.when())
		if now := c.pastNow(); now != "" {
			how = now
		}
		op.Reason = fmt.Sprintf("%s; a new set %s", how, c.newSetEnds(op))
		if op.Spare {
			need := ", and the spare is needed too"
			if op.PNeed < 0.995 {
				need = fmt.Sprintf(", but may not last: %s chance to need the spare too", quantity.Chance(op.PNeed))
			}
			op.Reason += need
		}
		if op.Watched && !op.Spare && s.Critical {
			op.Reason += c.lookAt(op)
		}
	case plan.DoNotTake:
		op.Reason = c.refusal(op)
	}
}

// lookAt says how and when the checklist has a watched set checked, as a
// further part of a sentence.
func (c chooser) lookAt(op *option) string {
	checks := plan.Checks(c.set.Spec, c.way.Legs, c.set.On, true)
	when := plan.Occasions(checks)
	if when == "" {
		return "; no check on the way would show it"
	}
	how := map[kind.Way]string{kind.ByGauge: "measure", kind.ByEye: "look at", kind.ByHand: "shake"}[checks[0].By]
	where := op.Where
	if c.set.Spec.Counted {
		where = "it"
	}
	return fmt.Sprintf("; %s %s %s", how, where, when)
}

// pastNow says which limit a counted part is past before it leaves; "" where none.
func (c chooser) pastNow() string {
	for _, p := range c.set.Levels {
		if c.set.Spec.Counted && p.Spec.Bound != "" && p.Start <= p.Limit {
			return "it is past " + p.Spec.Bound + " now"
		}
	}
	return ""
}

// worn says what becomes of the set as it is.
func (c chooser) worn(chance float64) string {
	if now := c.pastNow(); now != "" {
		return now
	}
	end := EndsWith(c.set)
	if chance < 0.995 {
		return fmt.Sprintf("%s chance to %s as it is", quantity.Chance(chance), end)
	}
	if end == reachLimit {
		end = "wear out"
	}
	return fmt.Sprintf("almost certain to %s as it is (%s chance)", end, quantity.Chance(chance))
}

// newSetEnds says how a new set comes home.
func (c chooser) newSetEnds(op *option) string {
	if c.set.Lifetime {
		return "has " + quantity.Chance(op.POut) + " chance to fail"
	}
	return fmt.Sprintf("comes home with about %s of its life", quantity.Life(op.LifeEnd))
}

const reachLimit = "reach the limit"

// early says where a set whose end is not dangerous passes its margin.
func (c chooser) early() string {
	first := c.set.Levels[c.set.First]
	word := c.set.Spec.Early
	if first.Spec.Bound != "" && first.Start <= first.Margin {
		return fmt.Sprintf("it is past its %s already", word)
	}
	return fmt.Sprintf("it passes its %s %s", word, c.marginLeg())
}

// EndsWith says in a verb what the set's life ends with, such as "reach the limit".
func EndsWith(s *projection.Set) string {
	if bound := s.Levels[s.First].Spec.Bound; bound != "" {
		return "pass " + bound
	}
	return s.Levels[s.First].Measure.Info().End
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

// withFindings puts what was found before a reason, and in its place where it
// forbids driving.
func withFindings(s *projection.Set, op *option, newSet func(*option) string) string {
	switch {
	case len(s.Stop) > 0 && op.Action == plan.ReplaceBefore:
		return fmt.Sprintf("%s; it does not leave like this, whatever the forecast says; a new set %s", strings.Join(s.Stop, "; "), newSet(op))
	case len(s.Stop) > 0 && op.Bind == plan.BindLate:
		return strings.Join(s.Stop, "; ") + "; " + op.Reason
	case len(s.Stop) > 0:
		return strings.Join(s.Stop, "; ") + "; it does not leave like this, whatever the forecast says"
	case s.Watched:
		return strings.Join(s.Seen, "; ") + "; " + op.Reason
	}
	return op.Reason
}
