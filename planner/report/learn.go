package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"time"

	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// Learn writes what the logbook teaches for a terminal.
func Learn(w io.Writer, t *plan.Teaching, v View) error {
	p := teaching{newPrinter(w, v), t}
	p.Line("%s: %s in the logbook, %s driven, %.0f circuit days in them", t.Car, page.Count(t.Rows, "row"), page.Count(t.Trips, "trip"), t.Days)
	p.sentences()
	p.rates()
	p.odd()
	p.questions()
	p.backtest()
	p.next()
	return p.Flush()
}

type teaching struct {
	printer
	*plan.Teaching
}

// learned is whether the logbook teaches anything of a set's rates.
func learned(l plan.Learned) bool { return l.Road.Taught || l.Circuit.Taught }

// sentences says in words what was learned.
func (t teaching) sentences() {
	var lines []string
	for _, s := range t.Sets {
		if learned(s.Learned) {
			lines = append(lines, fmt.Sprintf("Your %s %s.", s.Name, rates(s.Kind, s.Learned)))
			lines = append(lines, apart(s)...)
		}
	}
	for _, h := range t.Hubs {
		lines = append(lines, t.corner(h)...)
	}
	if len(lines) == 0 {
		lines = []string{"Nothing yet. Add a trip driven, and a reading of what wears before and after it: tripwear log add --help."}
	}
	t.Section("What was learned", "  ", lines)
}

// corner says what became of a corner's bearings, in days and miles as its owner
// counts them, and what would tell why.
func (t teaching) corner(h plan.HubTeaching) []string {
	if len(h.Bad) == 0 {
		return []string{fmt.Sprintf("At %s no bearing was found bad, %d came off good or were felt to be.", h.Place, h.Good)}
	}
	lines := []string{fmt.Sprintf("At %s %s found bad, after %s, %d came off good or were felt to be: a new one lasts 1, 2, 3 days with %s.",
		h.Place, bearings(len(h.Bad)), t.lives(h), h.Good, page.Joined(h.Lasts[:], quantity.Chance))}
	if len(h.Bad) > 1 {
		is := "is"
		if h.Repaired {
			is = "was"
		}
		lines = append(lines, fmt.Sprintf("The circuits ask %.1f times as much of %s as of %s, where %s found bad: %s chance that the corner itself %s wrong.", h.Load, h.Place, h.Other, bearings(h.OtherBad), quantity.Chance(h.Odd), is))
	}
	if h.Repaired {
		lines = append(lines, fmt.Sprintf("The last repair at %s cured it with %s; what becomes of the next bearings tells.", h.Place, quantity.Chance(h.Cured)))
	}
	if s := h.Settles; s != nil {
		lines = append(lines, fmt.Sprintf("A new bearing at %s would tell in %s at %s, felt before every session: it lasts them with %s where the corner is sound and with %s where it is not, so that the likelier of the two is right with %s.",
			h.Place, page.Count(s.Days, "usual day"), s.Circuit, quantity.Chance(s.Sound), quantity.Chance(s.Wrong), quantity.Chance(s.Right)))
	}
	return lines
}

// lives are how long a corner's bearings lasted.
func (t teaching) lives(h plan.HubTeaching) string {
	if slices.Contains(h.BadMeters, 0) {
		return "the wear of about " + page.Joined(h.BadDays, func(d float64) string { return fmt.Sprintf("%.0f", d) }) + " circuit days"
	}
	way := quantity.Distance[t.Units]
	return page.Joined(h.BadDays, func(d float64) string { return fmt.Sprintf("%.0f", d) }) + " circuit days and " +
		page.Joined(h.BadMeters, way.Text)
}

func bearings(n int) string {
	switch n {
	case 0:
		return "none was"
	case 1:
		return "1 bearing was"
	}
	return fmt.Sprintf("%d bearings were", n)
}

// apart says which corner pays and which circuit bites.
func apart(s plan.SetTeaching) (lines []string) {
	for _, c := range s.Corners {
		if c.Taught && c.Median > 1.1 {
			lines = append(lines, fmt.Sprintf("Of the %s %s pays: %.1fx (%.1f-%.1f) what the two lose on average.", s.Name, c.Name, c.Median, c.Low, c.High))
		}
	}
	var bites []string
	for _, c := range s.Circuits {
		if c.Taught {
			bites = append(bites, fmt.Sprintf("%s %.1fx (%.1f-%.1f)", c.Name, c.Median, c.Low, c.High))
		}
	}
	if len(bites) > 1 {
		lines = append(lines, fmt.Sprintf("By circuit the %s wear, against the model: %s.", s.Name, strings.Join(bites, ", ")))
	}
	return lines
}

// rates are a set's in words.
func rates(k profiles.Kind, l plan.Learned) string {
	verb, read, looked := wears(k)
	var parts []string
	add := func(m plan.Multiplier, where string) {
		if m.Taught {
			parts = append(parts, fmt.Sprintf("%.1fx (%.1f-%.1f) the model %s", m.Median, m.Low, m.High, where))
		}
	}
	add(l.Circuit, "on circuit")
	add(l.Road, "on the road")
	from := "from " + page.Count(l.Readings, read) + looked
	switch others := page.Count(l.Others, "other car"); {
	case l.Others > 0 && l.Readings == 0:
		from = "by what " + others + " told; they were never read themselves"
	case l.Others > 0:
		from += " and what " + others + " told"
	case l.Borrowed:
		from = "by what the other axle's do; they were never read themselves"
	}
	return fmt.Sprintf("%s %s, %s", verb, strings.Join(parts, " and "), from)
}

// learned says what of the answer comes from the logbook.
func (t text) learned() {
	var lines []string
	for _, s := range t.Sets {
		if learned(s.Learned) {
			lines = append(lines, s.Name+" "+rates(s.Kind, s.Learned)+".")
		}
	}
	if len(lines) > 0 {
		by := "By your logbook"
		if slices.ContainsFunc(t.Sets, func(s plan.Set) bool { return s.Learned.Others > 0 }) {
			by += " and other cars'"
		}
		t.Line("%s", by)
		t.List(page.Lead("LEARNED"), lines)
	}
}

// rates is the table of multiples.
func (t teaching) rates() {
	if len(t.Sets) == 0 {
		return
	}
	t.Head("Multiples of the model's rates, 80 % bands")
	name := 18
	for _, s := range t.Sets {
		name = max(name, len("  "+s.Name+" "))
	}
	widths := page.Columns{-t.Fit(name), -20, -20, 0}
	table := t.Table(widths, "  set", "road", "circuit", "readings")
	cell := func(m plan.Multiplier) string {
		if !m.Taught {
			return "as the model"
		}
		return fmt.Sprintf("%.2f (%.2f-%.2f)", m.Median, m.Low, m.High)
	}
	for _, s := range t.Sets {
		n := fmt.Sprint(s.Learned.Readings)
		switch {
		case s.Learned.Others > 0:
			n += ", and " + page.Count(s.Learned.Others, "other car")
		case s.Learned.Borrowed:
			n = "0, from the other axle"
		}
		table.Row("  "+s.Name, cell(s.Learned.Road), cell(s.Learned.Circuit), n)
	}
}

// odd says what was left out and what does not fit.
func (t teaching) odd() {
	if len(t.Misread)+len(t.Warnings) == 0 {
		return
	}
	t.Head("What does not fit")
	for _, m := range t.Misread {
		label, rest := "  Left out: ", "the others say"
		if m.Off < 0 { // a worse one is heard
			label, rest = "  Doubted: ", "all together say"
		}
		t.Fold(label, fmt.Sprintf("%s %s%s of %s reads %s where %s %s; read it again.",
			m.Set, m.Place, zoned(m.Zone), on(m.Date, "2 Jan 2006"), t.depth(m.Set, m.Read), rest, t.depth(m.Set, m.Expected)))
	}
	for _, w := range t.Warnings {
		t.Fold("  Note: ", w+".")
	}
}

// questions asks what would explain the readings, with the rows that answer.
func (t teaching) questions() {
	if len(t.Questions) == 0 {
		return
	}
	t.Head("Questions")
	for _, q := range t.Questions {
		then := "The plan goes by what it has until you answer"
		if q.Taken {
			then = "The plan goes by it until you answer"
		}
		t.Fold("  ", fmt.Sprintf("%s %s chance. %s: %s.", q.Text, quantity.Chance(q.Chance), then, strings.Join(q.Answers, ", or ")))
	}
}

// on is the date of a reading, which car.yaml's lack.
func on(date time.Time, layout string) string {
	if date.IsZero() {
		return "car.yaml"
	}
	return date.Format(layout)
}

func zoned(zone string) string {
	if zone == "" {
		return ""
	}
	return " " + zone
}

// depth is a level in the unit that its set is read in.
func (t teaching) depth(set string, m float64) string { return shownAs(set)[t.Units].Text(m) }

// shownPredictions is how many of the latest readings the backtest lists.
const shownPredictions = 8

func (t teaching) backtest() {
	b := t.Backtest
	t.Head("Backtest: past readings, each from what was known before it")
	n := len(b.Predictions)
	if n == 0 {
		t.Note("No reading yet that could be forecast: it takes an earlier one of the same part, or its replacement, and driving between.")
		return
	}
	widths := page.Columns{-14, -t.Fit(25), 10, 16, 10, 0}
	table := t.Table(widths, "  date", "where", "forecast", "80 % band", "read")
	for _, p := range b.Predictions[max(0, n-shownPredictions):] {
		mark := ""
		if p.Read < p.Low || p.Read > p.High {
			mark = " *"
		}
		table.Row("  "+on(p.Date, time.DateOnly), p.Set+" "+p.Place+zoned(p.Zone), t.depth(p.Set, p.Median), shownAs(p.Set)[t.Units].Range(p.Low, p.High), t.depth(p.Set, p.Read), mark)
	}
	if n > shownPredictions {
		t.Line("  the latest %d of %d; * outside its band", shownPredictions, n)
	}
	side := "above"
	if b.Bias < 0 {
		side = "below"
	}
	fine := quantity.Thickness[t.Units].Text
	t.Note("Of %s the 50 %% bands covered %s, the 80 %% bands %s, the 95 %% bands %s. Readings lie %s %s the forecast on average; mean error %s, with the model's own rates %s.",
		page.Count(n, "reading"), page.Percent(b.Held50), page.Percent(b.Held80), page.Percent(b.Held95), fine(math.Abs(b.Bias)), side, fine(b.Error), fine(b.DefaultError))
	if b.Earlier > 0 {
		t.Note("Forecast are only the latest days on which a kind of part was read, %d at most, not the %s before.", plan.LatestOccasions, page.Count(b.Earlier, "reading"))
	}
	if b.Lines > 0 {
		t.Note("Where a straight line by the odometer can be drawn (%s): mean error %s, the line's %s.", page.Count(b.Lines, "reading"), fine(b.ErrorWhereLines), fine(b.LineError))
	}
}

// next says what it is worth to know before a trip, in money.
func (t teaching) next() {
	if t.Trip == "" {
		return
	}
	t.Head("Measure next")
	if len(t.Worth) == 0 {
		t.Note("For %s nothing that could be read before leaving is worth a sum: the checks of its plan say what to read on the way.", t.Trip)
		return
	}
	t.Note("Before leaving for %s, by what it saves on average over the plan without it:", t.Trip)
	for _, v := range t.Worth {
		t.Fold("  - ", v.Say(t.Currency)+".")
	}
}
