// Package calendar prints a season for the terminal.
package calendar

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// Text writes a season at length: also why each set does what it does trip by
// trip, and what other times would cost.
func Text(w io.Writer, s *plan.Season, v page.View) error {
	p := season{page.New(w, v), s}
	p.Fold("", p.title())
	p.calendar()
	p.work()
	p.orders()
	p.money()
	p.waits()
	p.sets()
	p.Line("")
	p.Fold("", "Plan again before each trip: what was read since decides. A planning estimate: inspect before every session, and the maker's limits, local law and technical inspection come first.")
	return p.Flush()
}

type season struct {
	page.Page
	*plan.Season
}

func (p season) title() string {
	trips := 0
	for _, t := range p.Calendar {
		if !t.AtHome {
			trips++
		}
	}
	out := fmt.Sprintf("%s: a season of %d %s, %s to %s", p.Car, trips, plan.Plural(trips, "trip"), day(p.Calendar[0].Depart), day(p.Calendar[len(p.Calendar)-1].Back))
	if p.Usual > 0 && trips > 1 {
		out += fmt.Sprintf(", %s a month at home between them", p.Travel(p.Usual))
		if !p.Reckoned.IsZero() {
			out += " (what the odometer has made beside trips since " + day(p.Reckoned) + "; usual in car.yaml says otherwise)"
		}
	}
	return out
}

func day(t time.Time) string { return t.Format("2 Jan 2006") }

// calendar is the trips with their verdicts.
func (p season) calendar() {
	p.Head("The season: " + p.Verdict)
	for k, t := range p.Calendar {
		if t.AtHome {
			continue
		}
		what := fmt.Sprintf("%s, %s, %d circuit %s: %s; %s", t.Trip, p.Travel(t.Road), t.Days, plan.Plural(t.Days, "day"), t.Headline, p.cost(t))
		if k == p.Most && len(p.Calendar) > 1 {
			what += "; asks most of the car"
		}
		p.Fold(fmt.Sprintf("  %-6s to %-6s  ", t.Depart.Format("2 Jan"), t.Back.Format("2 Jan")), what)
		if t.Verdict == plan.No {
			p.Tell("WHY", t.Why)
		}
	}
	if len(p.Unread) > 0 {
		p.Tell("READ", "nobody read the "+plan.Listed(p.Unread)+": planned from the worse, and a reading may turn the answer (see tripwear plan).")
	}
	for _, c := range p.Own {
		p.Tell("OWN", c.What+" ("+c.Costs(p.amount)+").")
	}
	switch saved := p.InTurn - p.Cost; {
	case len(p.Calendar) == 1:
	case p.Refused < p.RefusedInTurn:
		p.Tell("WHOLE", "planned trip by trip the car would be kept at home where planned whole it goes.")
	case saved >= 0.5:
		p.Tell("WHOLE", fmt.Sprintf("what is decided is expected to cost %s; trip by trip it would be %.0f more.", p.amount(p.Cost), saved))
	case saved < 0.5:
		p.Tell("WHOLE", fmt.Sprintf("what is decided is expected to cost %s, no less than trip by trip.", p.amount(p.Cost)))
	}
}

func (p season) amount(x float64) string {
	return strings.TrimSpace(fmt.Sprintf("%.0f %s", x, p.Currency))
}

// cost is what a trip takes out of the purse.
func (p season) cost(t plan.SeasonTrip) string {
	out := p.amount(t.Purse) + " out of the purse"
	if t.Unpriced > 0 {
		out += fmt.Sprintf(", %d %s unknown", t.Unpriced, plan.Plural(t.Unpriced, "price"))
	}
	return out
}

// done are the actions in the order in which they are told, each with its word.
var done = []struct {
	word, short string
	of          []plan.Action
}{
	{"STOP", "do not take it:", []plan.Action{plan.DoNotTake}},
	{"REPLACE", "new", []plan.Action{plan.ReplaceBefore, plan.ReplaceAtStop}},
	{"BRING", "bring", []plan.Action{plan.Bring}},
}

// work is what to do when; why is told of each trip in all.
func (p season) work() {
	p.Head("What to do when")
	if len(p.Work) == 0 {
		p.Fold("  ", "nothing but what is watched")
	}
	reads := false
	for k := range p.Calendar {
		first := true
		for _, d := range done {
			var what []string
			for _, w := range p.Work {
				if w.Trip == k && slices.Contains(d.of, w.Action) {
					what = append(what, p.item(w))
					reads = reads || w.Decides != nil
				}
			}
			if len(what) == 0 {
				continue
			}
			if first {
				p.Fold("  ", p.occasion(k))
				first = false
			}
			p.Tell(d.word, strings.Join(what, ", "))
		}
	}
	if reads {
		p.Note("As it looks today: the reading at home before a trip decides, expected as told. A percentage is the chance to reach the limit on the trip if nothing is done.")
	}
}

// item is what is done about one set.
func (p season) item(w plan.SeasonWork) string {
	out := w.Name
	if w.Where != "" {
		out += " at " + w.Where
	}
	if w.Spare {
		out += " with a spare along"
	}
	out += " (" + quantity.Chance(w.AsIs)
	if w.Decides != nil {
		out += fmt.Sprintf("; expect %s at %s", w.Measure.Show(p.Units, max(0, w.Decides.Level)), w.Place)
	}
	return out + ")"
}

// occasion names a stretch as the time when something is done.
func (p season) occasion(k int) string {
	t := p.Calendar[k]
	if t.AtHome {
		return fmt.Sprintf("Home from %s, %s:", p.Calendar[k-1].Trip, day(t.Depart))
	}
	return fmt.Sprintf("For %s, which leaves %s:", t.Trip, day(t.Depart))
}

// orders lists what to order, what goes into one order together.
func (p season) orders() {
	if len(p.Orders) == 0 {
		return
	}
	p.Head("Orders")
	for _, b := range p.batches() {
		var what []string
		for _, o := range b.orders {
			late := map[bool]string{true: ", too late for it"}[o.Late]
			way := map[bool]string{true: ", on the way"}[o.Buy == plan.BuyOnTheWay]
			what = append(what, fmt.Sprintf("%s, %s%s, for %s%s", o.Name, o.Quantity(p.Units), way, o.Trip, late))
		}
		p.Fold("  "+page.Pad(b.when(p.View), 15), strings.Join(what, "; "))
	}
}

// money is what each month takes out of the purse.
func (p season) money() {
	p.Head(strings.TrimSpace("Money by month " + p.Currency))
	sum := 0.0
	var out []string
	for _, m := range p.Months {
		sum += m.Amount
		out = append(out, fmt.Sprintf("%s %.0f", m.First.Format("Jan 2006"), m.Amount))
	}
	p.Fold("  ", fmt.Sprintf("%s; %.0f in all: parts when they are ordered, the rest when the trip leaves", strings.Join(out, ", "), sum))
}

// waits is what another time would cost.
func (p season) waits() {
	if len(p.Waits) == 0 {
		return
	}
	p.Head("What waiting costs, each set by itself")
	for _, w := range p.Waits {
		var out []string
		for _, t := range w.Times {
			at := p.Calendar[t.Trip]
			when := "for " + at.Trip
			if at.AtHome {
				when = "home from " + p.Calendar[t.Trip-1].Trip
			}
			switch {
			case t.Trip == w.Decided:
				when += " as decided"
			case t.Extra < 0:
				when += fmt.Sprintf(" %.0f less, but not beside the others", -t.Extra)
			case t.Extra >= 0:
				when += fmt.Sprintf(" %.0f more", t.Extra)
			}
			out = append(out, when)
		}
		p.Fold("  "+w.Name+": ", strings.Join(out, ", "))
	}
}

// sets is what every set does on every trip.
func (p season) sets() {
	for _, t := range p.Calendar {
		if t.AtHome {
			continue
		}
		p.Head(t.Trip)
		for _, s := range slices.SortedStableFunc(slices.Values(t.Sets), func(a, b plan.Set) int { return cmp.Compare(b.Decision.POut, a.Decision.POut) }) {
			p.Fold("  "+s.Name+": ", fmt.Sprintf("%s; %s", s.Decision.Action, s.Decision.Reason))
		}
	}
}
