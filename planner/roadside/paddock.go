package roadside

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// Columns is the width of everything here.
const Columns = 42

// narrow is a page no wider than a phone.
func narrow(w io.Writer, v page.View) page.Page {
	if v.Width == 0 || v.Width > Columns {
		v.Width = Columns
	}
	return page.New(w, v)
}

// Paddock writes whether the sessions left are on: a line a set, worst first.
func Paddock(w io.Writer, a *plan.Paddock, v page.View) error {
	p, units := narrow(w, v), v.Units
	when := ""
	if !a.Day.IsZero() {
		when = ", " + a.Day.Format("Mon 2 Jan")
	}
	p.Fold("", fmt.Sprintf("%s, %s%s, %s", a.Car, a.Name, when, quantity.Distance[units].Text(a.Odometer)))
	switch {
	case !a.Here:
		p.Fold("", fmt.Sprintf("Not there yet; %d sessions, with the road there", a.Left))
	case a.Done > 0:
		p.Fold("", fmt.Sprintf("Session %d of %d done, %d to go", a.Done, a.Done+a.Left, a.Left))
	case a.Done == 0:
		p.Fold("", fmt.Sprintf("%d sessions to go", a.Left))
	}
	p.Line("")
	p.Fold("", map[string]string{plan.Yes: "YES, GO OUT: ", plan.No: "NO, DO NOT GO OUT: ", plan.CantSay: "CAN'T SAY YET: "}[a.Verdict]+a.Why+".")
	p.Line("")
	p.Line("%-16s%5s%7s%8s%6s", "", "lasts", "chance", "read", "act")
	for _, s := range a.Sets {
		lasts := fmt.Sprint(s.Sessions)
		if s.Sessions == plan.MostSessions {
			lasts += "+"
		}
		p.Line("%-16s%5s%7s%8s%6s", named(s), lasts, chance(s.Chance), read(a, s, units), act(s, units))
	}
	p.Line("")
	for _, s := range a.Sets {
		if s.Measure.Info().Length && s.Read != nil {
			p.Fold("Then      ", fmt.Sprintf("%s: %s expected after the day", named(s), s.Measure.Show(units, s.Expect)))
		}
	}
	for _, j := range a.Jobs {
		p.Fold("Job       ", j.When+": "+j.What)
	}
	p.Fold("Home      ", a.Home+": "+a.HomeWhy)
	p.Line("")
	p.Fold("", fmt.Sprintf("lasts: sessions, nine cases in ten. ?: not read; (7.0): by the car's profile. A yes takes %.0f %%. A planning estimate: inspect before every session.", 100*a.Least))
	return p.Flush()
}

// chance is a chance in four letters.
func chance(c float64) string {
	return strings.NewReplacer("over ", ">", "under ", "<", " ", "").Replace(quantity.Chance(c))
}

// named is a set in a few letters, with where it ends first.
func named(s plan.PaddockSet) string {
	name := strings.TrimSuffix(s.Name, " bearing")
	place, _, _ := strings.Cut(s.Where, " ")
	if len(place) == 2 && !strings.HasPrefix(name, place) {
		name += " " + place
	}
	return name[:min(len(name), 16)]
}

// read is what was read of a set, with its day where that is another.
func read(a *plan.Paddock, s plan.PaddockSet, u quantity.System) string {
	out := "?"
	switch {
	case s.Read != nil:
		out = s.Measure.Info().Level[u].Number(*s.Read)
	case s.Found != "":
		return s.Found[:min(len(s.Found), 7)]
	}
	if s.Read != nil && s.ReadOn.IsZero() { // the car's profile has it
		return "(" + out + ")"
	}
	if s.Read != nil && !s.ReadOn.Equal(a.Day.Truncate(24*3600e9)) {
		out = s.ReadOn.Format("Mon ") + out
	}
	return out
}

// act is at what level, or at what finding, something is done.
func act(s plan.PaddockSet, u quantity.System) string {
	if s.Measure.Info().Length {
		return s.Measure.Info().Level[u].Number(s.Act)
	}
	for _, f := range kind.Of(s.Kind).Findings {
		i := slices.IndexFunc(f.List, func(x kind.Finding) bool { return x.Forbids || x.Circuit })
		if i < 0 {
			continue
		}
		return string(f.List[i].Word[:min(len(f.List[i].Word), 5)])
	}
	if rows := kind.Of(s.Kind).Findings; len(rows) > 0 {
		return short(rows[0].List[len(rows[0].List)-1].Word)
	}
	return "-"
}

func short(word logbook.Finding) string {
	last := strings.Fields(string(word))
	return last[len(last)-1]
}
