package report

import (
	"fmt"
	"io"
	"math"
	"strings"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// LearnJSON writes what the logbook teaches as one object, as JSON does.
func LearnJSON(w io.Writer, t *plan.Teaching) error { return encode(w, t) }

// Learn writes what the logbook teaches for a terminal.
func Learn(w io.Writer, t *plan.Teaching, units quantity.System) error {
	p := teaching{newPrinter(w), t, units}
	p.line("%s: %s in the logbook, %s driven, %.0f circuit days in them", t.Car, count(t.Rows, "row"), count(t.Trips, "trip"), t.Days)
	p.sentences()
	p.rates()
	p.hubs()
	p.odd()
	p.backtest()
	p.next()
	return p.Flush()
}

type teaching struct {
	printer
	*plan.Teaching
	units quantity.System
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// sentences says in words what was learned.
func (t teaching) sentences() {
	t.head("What was learned")
	any := false
	for _, s := range t.Sets {
		l := s.Learned
		if !l.Road.Taught && !l.Circuit.Taught {
			continue
		}
		any = true
		t.fold("  ", fmt.Sprintf("Your %s %s.", s.Name, taught(s.Kind, l)))
	}
	for _, h := range t.Hubs {
		any = true
		t.fold("  ", fmt.Sprintf("At %s %s found bad and %d came off or was felt good: half of new bearings there last %.1f L10 lives or more, at a corner without a history %.1f.",
			h.Place, wasFound(len(h.Bad)), h.Good, h.Middle, h.Usual))
	}
	if !any {
		t.fold("  ", "Nothing yet. Add a trip driven, and a reading of tread or pads before and after it: tripwear log add --help.")
	}
}

func wasFound(n int) string {
	if n == 1 {
		return "1 bearing was"
	}
	return fmt.Sprintf("%d bearings were", n)
}

// taught is a set's rates in words.
func taught(k profiles.Kind, l plan.Learned) string {
	of := learningOf(k)
	var parts []string
	for _, m := range []struct {
		plan.Multiplier
		where string
	}{{l.Circuit, "on circuit"}, {l.Road, "on the road"}} {
		if m.Taught {
			parts = append(parts, fmt.Sprintf("%.1fx (%.1f-%.1f) the model %s", m.Median, m.Low, m.High, m.where))
		}
	}
	from := "from " + count(l.Readings, of.read) + of.looked
	if l.Borrowed {
		from = "by what the other axle's do; they were never read themselves"
	}
	return fmt.Sprintf("%s %s, %s", of.verb, strings.Join(parts, " and "), from)
}

// age is how old the oldest reading of a set is, where it is not of today.
func (t text) age(s plan.Set) string {
	if s.Driven < 1 && s.MeasuredOn.IsZero() {
		return ""
	}
	out := ""
	if !s.MeasuredOn.IsZero() {
		out = " " + s.MeasuredOn.Format("2 Jan 2006")
	}
	return out + ", " + quantity.Distance[t.units].Text(s.Driven) + " ago"
}

// heard says what of the answer comes from the logbook.
func (t text) heard() {
	first := true
	for _, s := range t.Sets {
		l := s.Learned
		if !l.Road.Taught && !l.Circuit.Taught {
			continue
		}
		if first {
			t.line("By your logbook")
			first = false
		}
		t.fold("  LEARNED ", s.Name+" "+taught(s.Kind, l)+".")
	}
}

// rates is the table of multiples.
func (t teaching) rates() {
	if len(t.Sets) == 0 {
		return
	}
	t.head("Multiples of the model's rates, 80 % bands")
	t.line("  %s%s%s%s", pad("set", 16), pad("road", 20), pad("circuit", 20), "readings")
	for _, s := range t.Sets {
		l := s.Learned
		cell := func(m plan.Multiplier) string {
			if !m.Taught {
				return "as the model"
			}
			return fmt.Sprintf("%.2f (%.2f-%.2f)", m.Median, m.Low, m.High)
		}
		n := fmt.Sprint(l.Readings)
		if l.Borrowed {
			n = "0, from the other axle"
		}
		t.line("  %s%s%s%s", pad(s.Name, 16), pad(cell(l.Road), 20), pad(cell(l.Circuit), 20), n)
	}
}

func (t teaching) hubs() {
	if len(t.Hubs) == 0 {
		return
	}
	t.head("Hub bearings with a history")
	for _, h := range t.Hubs {
		var ages []string
		for _, a := range h.Bad {
			ages = append(ages, fmt.Sprintf("%.2f", a))
		}
		if len(ages) == 0 {
			ages = []string{"none"}
		}
		t.fold("  "+h.Place+"  ", fmt.Sprintf("found bad after %s of L10; a new one lasts 1, 2, 3 circuit days with %s, %s, %s (without a history %s, %s, %s).",
			strings.Join(ages, ", "), chance(h.Lasts[0]), chance(h.Lasts[1]), chance(h.Lasts[2]), chance(h.UsualLasts[0]), chance(h.UsualLasts[1]), chance(h.UsualLasts[2])))
	}
	t.fold("  ", "Where the cause was found and removed, tripwear log add fix bearing --at PLACE starts the history anew.")
}

func chance(p float64) string { return quantity.Chance(p) }

// odd says aloud what was left out and what does not fit.
func (t teaching) odd() {
	if len(t.Misread)+len(t.Warnings) == 0 {
		return
	}
	t.head("Said aloud")
	for _, m := range t.Misread {
		when := "of car.yaml"
		if !m.Date.IsZero() {
			when = "of " + m.Date.Format("2 Jan 2006")
		}
		t.fold("  Left out: ", fmt.Sprintf("%s %s%s %s reads %s where the others say %s; read it again.",
			m.Set, m.Place, zoned(m.Zone), when, t.depth(m.Set, m.Read), t.depth(m.Set, m.Expected)))
	}
	for _, w := range t.Warnings {
		t.fold("  Note: ", w+".")
	}
}

func zoned(zone string) string {
	if zone == "" {
		return ""
	}
	return " " + zone
}

// depth is a level in the unit that its set is read in.
func (t teaching) depth(set string, m float64) string { return readAs(set)[t.units].Text(m) }

// shownPredictions is how many of the latest readings the backtest lists.
const shownPredictions = 8

func (t teaching) backtest() {
	b := t.Backtest
	t.head("Backtest: past readings, each from what was known before it")
	n := len(b.Predictions)
	if n == 0 {
		t.fold("  ", "No reading yet that could have been foretold: it takes an earlier one of the same part, or its renewal, and driving between.")
		return
	}
	t.line("  %s%s%s%s%s", pad("date", 12), pad("where", 25), padLeft("foretold", 10), padLeft("80 % band", 16), padLeft("read", 10))
	for _, p := range b.Predictions[max(0, n-shownPredictions):] {
		when := "car.yaml"
		if !p.Date.IsZero() {
			when = p.Date.Format(time.DateOnly)
		}
		mark := ""
		if p.Read < p.Low || p.Read > p.High {
			mark = " *"
		}
		t.line("  %s%s%s%s%s%s", pad(when, 12), pad(p.Set+" "+p.Place+zoned(p.Zone), 25), padLeft(t.depth(p.Set, p.Median), 10),
			padLeft(readAs(p.Set)[t.units].Range(p.Low, p.High), 16), padLeft(t.depth(p.Set, p.Read), 10), mark)
	}
	if n > shownPredictions {
		t.line("  the latest %d of %d; * outside its band", shownPredictions, n)
	}
	fine := quantity.Thickness[t.units]
	t.fold("  ", fmt.Sprintf("Of %s the 50 %% bands held %.0f %%, the 80 %% bands %.0f %%, the 95 %% bands %.0f %%. Readings lie %s %s foretold on average; mean error %s, with the model's own rates %s.",
		count(n, "reading"), 100*b.Held50, 100*b.Held80, 100*b.Held95, fine.Text(math.Abs(b.Bias)), side(b.Bias), fine.Text(b.Error), fine.Text(b.DefaultError)))
	if b.Earlier > 0 {
		t.fold("  ", fmt.Sprintf("The rates heed every row; foretold are the latest %d occasions that tires, and pads, were read on, and not the %s before.", plan.LatestOccasions, count(b.Earlier, "reading")))
	}
	if b.Lines > 0 {
		t.fold("  ", fmt.Sprintf("Where a straight line by the odometer can be drawn (%s): mean error %s, the line's %s.", count(b.Lines, "reading"), fine.Text(b.ErrorWhereLines), fine.Text(b.LineError)))
	}
}

func side(bias float64) string {
	if bias < 0 {
		return "below"
	}
	return "above"
}

// next says what to measure next.
func (t teaching) next() {
	if t.Trip == "" {
		return
	}
	t.head("Measure next")
	n := t.Next
	if n == nil {
		t.fold("  ", fmt.Sprintf("For %s no single reading would change much.", t.Trip))
		return
	}
	when := n.When
	if when != "before leaving" {
		when = "after " + when
	}
	t.fold("  ", fmt.Sprintf("For %s: the %s at %s%s, %s. As things stand, whether to leave them or to act would be decided wrongly with %s; once they are read, with %s.",
		t.Trip, n.Name, n.Place, zoned(n.Zone), when, chance(n.Risk), chance(n.After)))
}
