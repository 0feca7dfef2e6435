package screen

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// narrow is the width under which labels are short and reasons are left out.
const narrow = 72

// Most is how many lines the screen takes at most, where that can be done.
const Most = 25

// leastDays are the circuit days that are on it at any rate.
const leastDays = 3

// cut is what is left out so that the screen does not run off: one after
// another, what is missed the least first. What is to be ordered with its day
// and price, what to stop at, and the cautions stay.
type cut int

const (
	whole    cut = iota
	asides       // what another line has nearly as well
	room         // what the trunk still holds, where all fits
	reasons      // why, where another command has it
	how          // by what a thing is looked at
	where        // of what is named by its set already
	details      // of the cost, and of what the answer rests on
	fits         // what goes on before a day, which the trunk's line has
	together     // orders of one day stand in one line
	later        // where there is no yes: what comes after it
	upkeep       // what is done at home beside replacing
	looks        // what an eye or a hand tells
	closing      // the caution and where there is more stand in one line
	long         // from here on lists are cut, to ever fewer lines
	shorter
	short
	bare // what the answer rests on, and of what the cost is
	barest
)

// lines is how many entries a list has at most.
func (s *screen) lines() int {
	return map[cut]int{long: 6, shorter: 4, short: 3, bare: 2, barest: 1}[s.cut]
}

// Text writes the first screen of a plan: all that it has to say, or as much of
// it as fits.
func Text(w io.Writer, p *plan.Plan, v page.View) error {
	var text bytes.Buffer
	for c := whole; c <= barest; c++ {
		text.Reset()
		s := &screen{page.New(&text, v), p, p.Answer, c}
		s.write()
		if err := s.Flush(); err != nil {
			return err
		}
		if bytes.Count(text.Bytes(), []byte("\n")) <= Most {
			break
		}
	}
	_, err := w.Write(text.Bytes())
	return err
}

func (s *screen) write() {
	s.title()
	s.verdict()
	s.standing()
	s.found()
	s.decide()
	s.orders()
	s.atHome()
	s.trunk()
	s.swaps()
	s.stops()
	s.days()
	s.watch()
	s.weak()
	s.next()
	s.cost()
	s.rests()
	switch {
	case s.small() && s.cut >= details:
		s.Fold("", "Estimate: inspect before every session. All of it: tripwear plan --all")
	case s.small():
		s.Fold("", "Estimate: inspect before every session.")
		s.Fold("", "More: tripwear plan --why, or --all.")
	case s.cut >= closing:
		s.Fold("", "A planning estimate: inspect before every session.  More: tripwear plan --all")
	case !s.small():
		s.Fold("", "A planning estimate: inspect before every session, whatever it says.")
		s.Fold("", "More: tripwear plan --why, or --all.")
	}
}

type screen struct {
	page.Page
	*plan.Plan
	a *plan.Answer
	cut
}

func (s *screen) small() bool { return s.Width < narrow }

// entry writes a text after a label in the gutter; "" for a further line.
func (s *screen) entry(label, text string) {
	s.Fold(s.gutter(label), text)
}

// gutter is a label before what it is for.
func (s *screen) gutter(label string) string {
	if !s.small() {
		return page.Pad(label, 11)
	}
	if short, ok := labels[label]; ok {
		label = short
	}
	return page.Pad(label, 7)
}

var labels = map[string]string{"At home": "Home", "On the way": "Stop", "Weak spot": "Weak", "Tonight": "Now", "Rests on": "Rests", "Read next": "Read"}

// amount writes a text with an amount at the right margin of its last line.
func (s *screen) amount(label, text, amount string) {
	s.columns(s.gutter(label), text, amount, len(amount)+2)
}

// columns writes a lead, a text that is folded beside it, and a figure at the right
// margin of its last line.
func (s *screen) columns(lead, text, figure string, width int) {
	gutter := len([]rune(lead))
	line := ""
	next := func() {
		s.Line("%s%s", lead, line)
		lead, line = strings.Repeat(" ", gutter), ""
	}
	words := strings.Fields(s.Units.Words(text))
	for i, word := range words {
		room := s.Width - gutter
		if i == len(words)-1 { // beside which the figure stands
			room -= width
		}
		if line != "" && page.Wide(line)+1+page.Wide(word) > room {
			next()
		}
		line = strings.TrimPrefix(line+" "+word, " ")
	}
	s.Line("%s%s%s", lead, page.Pad(line, s.Width-gutter-width), page.PadLeft(figure, width))
}

func (s *screen) money(x float64) string { return page.Money(x, s.Currency) }

// title is the trip, or where it stands.
func (s *screen) title() {
	road, days, _ := s.Driven()
	if at := s.Standing; at != nil {
		s.Fold("", fmt.Sprintf("%s, %s: %d of %d legs driven, %s, %s", s.Car, s.Trip, at.Driven, at.Legs, s.Day(at.Day), s.Miles(at.Odometer)))
		where := fmt.Sprintf("At %s", at.Place)
		if at.Of > 0 {
			where += fmt.Sprintf(", session %d of %d done", at.Sessions, at.Of)
		}
		s.Fold("", fmt.Sprintf("%s; %s and %s to go", where, s.Miles(at.Left), page.Count(at.Days, "circuit day")))
		return
	}
	when := ""
	if !s.Depart.IsZero() {
		day := s.Day
		if s.small() {
			day = func(t time.Time) string { return strings.TrimPrefix(s.Day(t), t.Format("Mon ")) }
		}
		when = ": " + day(s.Depart)
		if end := s.Legs[len(s.Legs)-1].End; !end.IsZero() && end.Sub(s.Depart).Hours() > 24 {
			when += " to " + day(end)
		}
	}
	title := s.Car + ", " + s.Trip + when
	if !s.small() {
		title += ", " + s.Miles(road) + ", " + page.Count(days, "circuit day")
	}
	s.Fold("", title)
}

// verdict is the answer and why.
func (s *screen) verdict() {
	s.Line("")
	why, _, _ := strings.Cut(s.Why, ";")
	if s.Verdict == plan.YesOnce { // whose headline names the set
		_, why, _ = strings.Cut(why, ": ")
	}
	if s.small() && s.Safe {
		why, _, _ = strings.Cut(why, " (")
	}
	s.Fold("", s.Headline()+". "+page.First(strings.TrimSuffix(why, "."))+".")
}

// standing is what was read on the way beside what was expected.
func (s *screen) standing() {
	if s.Standing == nil {
		return
	}
	label := "Read"
	told, left := s.shown(len(s.Standing.Foretold))
	for _, r := range s.Standing.Foretold[:told] {
		what := strings.TrimSpace(r.Place+" "+r.Zone) + " " + string(r.Measure)
		worse := ""
		if r.Read < r.Low {
			worse = ", worse than nine cases in ten"
		}
		s.entry(label, fmt.Sprintf("%s: %s expected, %s read%s", what, level(r.Measure, s.Units, r.Expected), level(r.Measure, s.Units, r.Read), worse))
		label = ""
	}
	if left > 0 {
		s.entry(label, fmt.Sprintf("and %d more: --all", left))
	}
}

// found is what forbids driving, and the smallest change that makes the trip safe.
func (s *screen) found() {
	if s.Verdict != plan.No {
		return
	}
	if slices.ContainsFunc(s.a.Found, func(f plan.Found) bool { return !kind.CircuitOnly(f.What) }) {
		s.Fold("", "Do not drive it like this, not even to the shop.")
	}
	told, left := s.shown(len(s.a.Found))
	for k, f := range s.a.Found[:told] {
		if k > 0 { // the first is why there is no yes
			s.entry("Found", f.Name+", "+f.What)
		}
	}
	if left > 0 {
		s.entry("", fmt.Sprintf("and %d more: --all", left))
	}
	s.Line("Smallest change that makes it safe")
	told, _ = s.shown(len(s.Safer))
	for _, c := range s.Safer[:told] {
		date := ""
		if !c.Date.IsZero() && c.Days == 0 {
			date = ", order by " + s.Day(c.Date)
		}
		if c.At != nil {
			date += ", after about " + s.Miles(c.At.Meters)
		}
		cost := "price?"
		if quantity.Known(c.Cost) {
			if cost = s.money(c.Cost); c.Cost <= -0.5 {
				cost = s.money(-c.Cost) + " less"
			}
		}
		s.columns("  ", c.What+date, cost, len(cost)+2)
	}
	if len(s.Safer) == 0 {
		none := "none of those tried"
		if s.cut < bare {
			none += ": later days, other parts, stops, fewer days or sessions, a lower pace"
		}
		s.entry("", none)
	}
	s.Line("Then, and only then")
}

// decide lists the readings that the answer waits for, by what they decide.
func (s *screen) decide() {
	if s.Verdict != plan.CantSay {
		return
	}
	s.Line("Measure first")
	told, left := s.shown(len(s.Readings))
	for _, r := range s.Readings[:told] {
		text := r.Name
		if v := s.worth(r.Set); v != nil {
			text += ", worth " + s.money(v.Saving)
		}
		if s.cut < where {
			text += ", " + strings.TrimSpace(r.Place+" "+r.Zone) + " first"
		}
		if r.Measure.Info().Length {
			if s.cut < reasons {
				text += ", guess " + level(r.Measure, s.Units, r.Guess) + " ?"
			}
			text += fmt.Sprintf(": %s or more: %s; less: %s", needs(r.Measure, s.Units, r.Threshold), r.Above, r.Below)
		} else {
			text += ": " + r.Above + "; " + r.Below
		}
		if s.cut >= how {
			text = brief.Replace(text)
		}
		for _, i := range s.a.Orders {
			if it := s.Shopping[i]; it.Set == r.Set && quantity.Known(it.Price) {
				text += "; it decides " + s.money(it.Price)
				if !it.OrderBy.IsZero() {
					text += " by " + s.Day(it.OrderBy)
				}
			}
		}
		s.Fold("  ", text)
	}
	if left > 0 {
		s.Line("  and %d more: --all", left)
	}
	if s.small() {
		s.Line("If you read nothing, prepare for worse")
		return
	}
	s.Line("If you measure nothing, prepare for the worse")
}

// worth is what reading a set is worth; nil where it is not told.
func (s *screen) worth(set string) *plan.Worth {
	i := slices.IndexFunc(s.Worth, func(v plan.Worth) bool { return v.Set == set && v.What == plan.WorthReading })
	if i < 0 {
		return nil
	}
	return &s.Worth[i]
}

// next is what is worth knowing beside the readings that the answer waits for.
func (s *screen) next() {
	if s.aside() {
		return
	}
	var out []string
	for _, v := range s.Worth {
		small := s.cut >= where && v.Saving < 10 // what may be left out
		if small || len(out) == 2 || slices.ContainsFunc(s.Readings, func(r plan.Deciding) bool { return r.Set == v.Set }) {
			continue
		}
		what := map[string]string{plan.WorthReading: v.Name, plan.WorthAge: "age of the " + v.Name, plan.WorthRoom: "room of the " + v.Name}[v.What]
		most := ""
		if v.AtMost {
			most = "up to "
		}
		out = append(out, what+", worth "+most+s.money(v.Saving))
	}
	if s.cut >= where && len(out) > 1 {
		out = out[:1]
	}
	if len(out) > 0 {
		s.entry("Read next", strings.Join(out, "; "))
	}
}

// brief has in a word what a reading decides.
var brief = strings.NewReplacer("it goes as it is", "goes", "bring a spare", "spare", "replace it before leaving", "replace",
	"replace it on the way", "replace on the way", ", or past its limit, do not drive on it", " or park it", "past its limit, do not drive on it", "park it", ": do not drive it", ": park it")
