package calendar

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"time"

	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// Screen writes a season on one screen.
func Screen(w io.Writer, s *plan.Season, v page.View) error {
	p := season{page.New(w, v), s}
	p.Fold("", fmt.Sprintf("%s, %s to %s%s", p.Car, p.date(p.Calendar[0].Depart), p.date(p.Calendar[len(p.Calendar)-1].Back), p.between()))
	p.Line("")
	p.Fold("", p.answer())
	p.trips()
	p.todo()
	for _, c := range p.Own {
		p.entry("Or", c.What+" ("+c.Costs(p.amount)+")")
	}
	p.order()
	p.entry("Money", p.byMonth())
	p.entry("Budget", p.budget())
	p.entry("Waiting", p.waiting())
	p.Fold("", "A planning estimate: inspect before every session, plan again before each trip.")
	p.entry("Rests on", p.rests()+"More: tripwear season --all")
	return p.Flush()
}

// between is the driving between the trips.
func (p season) between() string {
	if len(p.away()) == 1 || p.Usual == 0 {
		return ""
	}
	out := fmt.Sprintf(", %s a month between trips", p.Miles(p.Usual))
	if !p.Reckoned.IsZero() {
		out += ", as the odometer made it since " + day(p.Reckoned)
	}
	return out
}

// rests says what is a guess.
func (p season) rests() string {
	n := len(p.Unread)
	switch {
	case n == 0:
		return "what was read. "
	case n > 2:
		return fmt.Sprintf("a guess: %s and %d others. ", p.Unread[0], n-1)
	}
	return "a guess: " + plan.Listed(p.Unread) + ". "
}

// entry folds a text after a label; nothing where there is none.
func (p season) entry(label, text string) {
	if text != "" {
		p.Fold(page.Pad(label, 9), text)
	}
}

// answer is the verdict of all trips, and what planning them as one is worth.
func (p season) answer() string {
	count, away := map[string]int{}, p.away()
	for _, t := range away {
		count[t.Verdict]++
	}
	out := "YES TO ALL"
	switch n := len(away); {
	case n == 1:
		out = away[0].Headline
	case count[plan.No] > 0:
		out = fmt.Sprintf("NOT ALL AS THEY STAND: NO TO %d OF %d", count[plan.No], n)
	case count[plan.YesOnce] > 0:
		out = fmt.Sprintf("YES TO ALL %d, %s", n, "ONCE WHAT IS DUE IS NEW")
	}
	out += ". What is decided is expected to cost " + page.Money(p.Cost, p.Currency)
	switch saved := p.InTurn - p.Cost; {
	case len(away) == 1, p.Budget != nil && p.Budget.More > 0: // trip by trip it might not hold
	case p.Refused < p.RefusedInTurn:
		out += "; trip by trip the car would be kept at home where planned as one it goes"
	case saved >= 0.5:
		out += fmt.Sprintf(", trip by trip %s more", page.Money(saved, p.Currency))
	case saved < 0.5:
		out += ", no less than trip by trip"
	}
	if len(away) > 1 {
		out += ". " + p.Calendar[p.Most].Trip + " asks most of the car"
	}
	return out + "."
}

// away are the trips, without the days at home.
func (p season) away() []plan.SeasonTrip {
	return slices.DeleteFunc(slices.Clone(p.Calendar), func(t plan.SeasonTrip) bool { return t.AtHome })
}

// trips is the calendar.
func (p season) trips() {
	table := p.Table(page.Columns{-17, -p.Fit(24), 9, 5, 2, -14, 9}, "Calendar", "", "road", "days", "", "", "purse")
	for _, t := range p.away() {
		purse := page.Money(t.Purse, p.Currency)
		if t.Unpriced > 0 {
			purse += "+?"
		}
		table.Row("  "+p.span(t.Depart, t.Back), t.Trip, p.Miles(t.Road), fmt.Sprint(t.Days), "", t.Verdict, purse)
	}
	table.Flush()
	for _, t := range p.away() {
		if t.Verdict == plan.No {
			p.entry("Why", t.Trip+": "+t.Why)
		}
	}
}

// date is a day without its weekday.
func (p season) date(t time.Time) string {
	if p.Units == quantity.US {
		return t.Format("Jan 2")
	}
	return t.Format("2 Jan")
}

func (p season) span(from, to time.Time) string { return p.date(from) + "-" + p.date(to) }

// todo is what is done when, the trips' decisions but the first's with the reading
// that decides them.
func (p season) todo() {
	label, reads := "To do", false
	for k, t := range p.Calendar {
		var parts []string
		for _, d := range done {
			var names []string
			for _, w := range p.Work {
				if w.Trip == k && slices.Contains(d.of, w.Action) {
					names = append(names, p.short(w))
					reads = reads || w.Decides != nil
				}
			}
			if len(names) > 0 {
				parts = append(parts, d.short+" "+strings.Join(names, ", "))
			}
		}
		if len(parts) > 0 {
			p.Fold(page.Pad(label, 9)+page.Pad(p.date(t.Depart), 8), strings.Join(parts, "; "))
			label = ""
		}
	}
	if label != "" {
		p.entry(label, "nothing but what is watched")
	}
	if reads {
		p.entry("", "[as expected at home before that trip: what is read then decides]")
	}
}

// short is a set with where it is replaced and what decides it.
func (p season) short(w plan.SeasonWork) string {
	out := w.Name
	if w.Where != "" {
		out += " at " + w.Where
	}
	if w.Spare {
		out += " and a spare"
	}
	if w.Decides != nil {
		out += fmt.Sprintf(" [%s %s]", w.Place, strings.TrimSuffix(w.Measure.Show(p.Units, max(0, w.Decides.Level)), " in"))
	}
	return out
}

// batch are the orders of one day.
type batch struct {
	orders []plan.SeasonOrder
}

func (p season) batches() []batch {
	var out []batch
	rank := func(o plan.SeasonOrder) int { return map[bool]int{true: 1}[o.Day.IsZero()] }
	sorted := slices.SortedStableFunc(slices.Values(p.Orders), func(a, b plan.SeasonOrder) int {
		return cmp.Or(cmp.Compare(rank(a), rank(b)), a.Day.Compare(b.Day))
	})
	for _, o := range sorted {
		if n := len(out) - 1; n >= 0 && out[n].orders[0].Day.Equal(o.Day) {
			out[n].orders = append(out[n].orders, o)
		} else {
			out = append(out, batch{[]plan.SeasonOrder{o}})
		}
	}
	return out
}

func (b batch) when(v page.View) string {
	if day := b.orders[0].Day; !day.IsZero() {
		return "by " + v.Day(day)
	}
	return "any day"
}

// order has a line for each order, with its sum.
func (p season) order() {
	label := "Order"
	for _, b := range p.batches() {
		sum, unknown := 0.0, 0
		var names []string
		count := map[string]int{}
		for _, o := range b.orders {
			name := o.Set
			for _, s := range p.Calendar[o.Of].Sets {
				if s.ID == o.Set {
					name = s.Name
				}
			}
			if o.Late {
				name += " (LATE)"
			}
			if count[name]++; count[name] == 1 {
				names = append(names, name)
			}
			if quantity.Known(o.Price) {
				sum += o.Price
			} else {
				unknown++
			}
		}
		for i, name := range names {
			if n := count[name]; n > 1 {
				names[i] = fmt.Sprintf("%d x %s", n, name)
			}
		}
		price := page.Money(sum, p.Currency)
		if unknown > 0 {
			price += " and " + page.Count(unknown, "unknown price")
		}
		p.Fold(page.Pad(label, 9)+page.Pad(b.when(p.View), 15), strings.Join(names, ", ")+"; "+price)
		label = ""
	}
}

// byMonth is the money month by month.
func (p season) byMonth() string {
	sum := 0.0
	out := page.Joined(p.Months, func(m plan.Month) string {
		sum += m.Amount
		return m.First.Format("Jan") + " " + page.Thousands(m.Amount)
	})
	return out + "; all " + page.Money(sum, p.Currency)
}

// budget says whether the parts keep to it.
func (p season) budget() string {
	b := p.Budget
	if b == nil {
		return ""
	}
	month := func(x float64) string { return page.Money(x, p.Currency) + " a month" }
	out := fmt.Sprintf("parts keep to %s from %s on", month(b.Month), b.From.Format("January"))
	if !b.Holds {
		none := map[bool]string{false: "NO PLAN WITH EVERY TRIP WAS FOUND that keeps", true: "NO PLAN WITH EVERY TRIP keeps"}[b.Proved]
		out = none + fmt.Sprintf(" to %s for parts from %s on; this one takes %s", month(b.Month), b.From.Format("January"), month(math.Ceil(b.Takes)))
	}
	if b.More >= 0.5 {
		out += fmt.Sprintf(", which is expected to cost %s more than without a budget", page.Money(b.More, p.Currency))
	}
	return out
}

// waiting is what it costs to replace a set a time before it is decided, or after
// that where it is the first.
func (p season) waiting() string {
	var out []string
	for _, w := range p.Waits {
		at := slices.IndexFunc(w.Times, func(t plan.Wait) bool { return t.Trip == w.Decided })
		if other := w.Times[max(at-1, 1-at)]; other.Extra >= 0.5 {
			out = append(out, fmt.Sprintf("%s %s %s over %s", w.Name, p.date(p.Calendar[other.Trip].Depart), page.Money(other.Extra, p.Currency), p.date(p.Calendar[w.Decided].Depart)))
		}
	}
	return strings.Join(out, ", ")
}
