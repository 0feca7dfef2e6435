package planner

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/profiles/quantity"
)

// judge gives a plan its verdict and why.
func judge(p *plan.Plan) {
	var found, forbid, replaced, unread []string
	read := 0
	for _, s := range p.Sets {
		waits := slices.ContainsFunc(p.Readings, func(r plan.Deciding) bool { return r.Set == s.ID })
		switch {
		case len(s.Stop) > 0:
			found = append(found, s.Name+", "+strings.Join(s.Stop, "; "))
		case s.Decision.Action == plan.DoNotTake && !waits:
			forbid = append(forbid, s.Name+": "+s.Decision.Reason)
		case s.Decision.Action == plan.ReplaceBefore:
			replaced = append(replaced, s.Name+": "+s.Decision.Reason)
		}
		if s.Read {
			read++
		}
		if waits {
			unread = append(unread, s.Name)
		}
	}
	forbid = append(found, forbid...) // what was found comes before any forecast
	if on := p.Overfull(); on != "" {
		forbid = append(forbid, "what is swapped before "+on+" does not fit the trunk with the luggage and what else rides along: take less along, or keep one set on all the way")
	}
	p.Verdict = plan.Yes
	switch {
	case len(forbid) > 0:
		p.Verdict, p.Why = plan.No, forbid[0]
	case len(unread) > 0:
		p.Verdict, p.Why = plan.CantSay, unreadWhy(read, plan.Readable(p.Sets), unread)
	case len(replaced) > 0:
		p.Verdict, p.Why = plan.YesOnce, replaced[0]
	case len(p.Sets) > 0:
		w := p.WeakSpot()
		p.Why = fmt.Sprintf("every set comes home as decided; least sure: %s, %s chance of being stopped short", w.Name, quantity.Chance(w.Decision.POut))
	}
	p.Safe = p.Verdict == plan.Yes || p.Verdict == plan.YesOnce
}

// unreadWhy says how much the answer waits for.
func unreadWhy(read, sets int, unread []string) string {
	return fmt.Sprintf("%d of %d sets were read or felt; the %s could turn the answer, and nobody read all of them", read, sets, plan.Listed(unread))
}

// does says in words what an action does about a set as it would be read.
func does(s *projection.Set, a plan.Action) string {
	if s.PastLimit() {
		return "past its limit, do not drive on it"
	}
	switch a {
	case plan.Run, plan.Watch:
		return "it goes as it is"
	case plan.Bring:
		return "bring a spare"
	case plan.ReplaceBefore:
		return "replace it before leaving"
	case plan.ReplaceAtStop:
		return "replace it on the way"
	case plan.DoNotTake:
	}
	return "do not take the car"
}

// answerLasts gives an answer of lasts its verdict and why.
func answerLasts(l *plan.Lasting) {
	var found, no, waits []string
	read := 0
	for _, s := range l.Sets {
		if s.Read {
			read++
		}
		switch {
		case len(s.Stop) > 0:
			found = append(found, s.Name+": "+s.Advice)
		case slices.ContainsFunc(l.Readings, func(r plan.Deciding) bool { return r.Set == s.ID }):
			waits = append(waits, s.Name)
		case !s.Lasts:
			no = append(no, s.Name+": "+s.Advice)
		}
	}
	no = append(found, no...)
	l.Verdict = plan.Yes
	switch {
	case len(no) > 0:
		l.Verdict, l.Why = plan.No, no[0]
	case len(waits) > 0:
		l.Verdict, l.Why = plan.CantSay, unreadWhy(read, len(l.Sets), waits)
	case len(l.Sets) > 0:
		at := slices.Index(l.Counts, l.Days)
		w := slices.MinFunc(l.Sets, func(a, b plan.SetLasting) int { return cmp.Compare(a.Chance[at], b.Chance[at]) })
		l.Why = fmt.Sprintf("every set asked about makes it; least sure: %s, %s chance", w.Name, quantity.Chance(w.Chance[at]))
	}
	l.Lasts = l.Verdict == plan.Yes
}
