package screen

import (
	"fmt"
	"io"
	"strings"
	"time"

	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// narrow is the width under which labels are short and reasons are left out.
const narrow = 72

// Text writes the first screen of a plan.
func Text(w io.Writer, p *plan.Plan, v page.View) error {
	s := &screen{page.New(w, v), p, p.Answer}
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
	s.cost()
	s.rests()
	if s.small() {
		s.Fold("", "Estimate: inspect before every session.")
	} else {
		s.Fold("", "A planning estimate: inspect before every session, whatever it says.")
	}
	s.Fold("", "More: tripwear plan --why, or --all.")
	return s.Flush()
}

type screen struct {
	page.Page
	*plan.Plan
	a *plan.Answer
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
	if short, ok := shorter[label]; ok {
		label = short
	}
	return page.Pad(label, 7)
}

var shorter = map[string]string{"At home": "Home", "On the way": "Stop", "Weak spot": "Weak", "Tonight": "Now", "Rests on": "Rests"}

// amount writes a text with an amount at the right margin of its last line.
func (s *screen) amount(label, text, amount string) {
	s.columns(s.gutter(label), text, amount, len(amount)+2)
}

// columns writes a lead, a text that is folded beside it, and a figure at the right
// margin of its last line.
func (s *screen) columns(lead, text, figure string, width int) {
	gutter := len([]rune(lead))
	room := s.Width - gutter - width
	line := ""
	for _, word := range strings.Split(s.Units.Words(text), " ") {
		if strings.TrimSpace(line) != "" && len(line)+1+len(word) > room {
			s.Line("%s%s", lead, strings.TrimSpace(line))
			lead, line = strings.Repeat(" ", gutter), ""
		}
		if line += " " + word; len(lead) > 0 && strings.TrimSpace(line) == "" {
			line = ""
		}
	}
	s.Line("%s%s%s", lead, page.Pad(strings.TrimPrefix(line, " "), room), page.PadLeft(figure, width))
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
	for _, r := range s.Standing.Foretold {
		what := strings.TrimSpace(r.Place+" "+r.Zone) + " " + string(r.Measure)
		worse := ""
		if r.Read < r.Low {
			worse = ", worse than nine cases in ten"
		}
		s.entry(label, fmt.Sprintf("%s: %s expected, %s read%s", what, level(r.Measure, s.Units, r.Expected), level(r.Measure, s.Units, r.Read), worse))
		label = ""
	}
}

// found is what forbids driving, and the smallest change that makes the trip safe.
func (s *screen) found() {
	if s.Verdict != plan.No {
		return
	}
	for _, f := range s.a.Found {
		s.entry("Found", fmt.Sprintf("%s, %s: do not drive it like this, not even to the shop", f.Name, f.What))
	}
	s.Line("Smallest change that makes it safe")
	for _, c := range s.Safer {
		date := ""
		if !c.Date.IsZero() && c.Days == 0 {
			date = ", order by " + s.Day(c.Date)
		}
		if c.At != nil {
			date += ", after about " + s.Miles(c.At.Meters)
		}
		cost := "price?"
		if quantity.Known(c.Cost) {
			cost = s.money(c.Cost)
		}
		s.amount("", c.What+date, cost)
	}
	if len(s.Safer) == 0 {
		s.entry("", "none of those tried: later days, other parts, stops, fewer days or sessions, a lower pace")
	}
	s.Line("Then, and only then")
}

// decide lists the readings that the answer waits for, by what they decide.
func (s *screen) decide() {
	if s.Verdict != plan.CantSay {
		return
	}
	s.Line("Measure first")
	for _, r := range s.Readings {
		text := strings.TrimSpace(r.Name + ", " + strings.TrimSpace(r.Place+" "+r.Zone) + " first")
		if r.Measure.Info().Length {
			text += fmt.Sprintf(", guess %s ?: %s or more: %s; less: %s", level(r.Measure, s.Units, r.Guess), needs(r.Measure, s.Units, r.Threshold), r.Above, r.Below)
		} else {
			text += ": " + r.Above + "; " + r.Below
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
	s.Line("If you measure nothing, prepare for the worse")
}
