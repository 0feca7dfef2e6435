package roadside

import (
	"cmp"
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

// Paddock writes whether the sessions left are on: a line a set, worst first.
func Paddock(w io.Writer, a *plan.Paddock, v page.View) error {
	p, units := page.New(w, v), v.Units
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
	no := "NO, DO NOT GO OUT: "
	if a.Session == plan.Yes {
		no = fmt.Sprintf("NO, NOT FOR ALL %d: ", a.Left)
	}
	p.Fold("", map[string]string{plan.Yes: "YES, GO OUT: ", plan.No: no, plan.CantSay: "CAN'T SAY YET: "}[a.Verdict]+a.Why+".")
	p.Line("")
	columns, heads := page.Columns{-16, 5, 7, 8, 6}, []string{"", "lasts", "chance", "read", "act"}
	if p.Width >= wide {
		columns, heads = page.Columns{-26, 7, 9, 16, 9, 13}, append(heads, "then")
	}
	table := p.Table(columns, heads...)
	for _, s := range a.Sets {
		lasts := fmt.Sprint(s.Sessions)
		if s.Sessions == plan.MostSessions {
			lasts += "+"
		}
		cells := []string{named(s, 16), lasts, chance(s.Chance), read(a, s, units), act(s, units)}
		if p.Width >= wide {
			cells[0] = named(s, 26)
			cells = append(cells, then(s, units))
		}
		table.Row(cells...)
	}
	p.Line("")
	for _, s := range a.Sets {
		if text := then(s, units); text != "" && p.Width < wide {
			p.Fold("Then      ", named(s, 16)+": "+text+" expected after the day")
		}
	}
	for _, j := range a.Jobs {
		p.Fold("Job       ", j.When+": "+j.What)
	}
	p.Line("")
	p.Fold("Session   ", said(a.Session, a.Sure))
	if n := a.Next; n != nil {
		label := "Tomorrow  "
		if !n.Day.IsZero() && !a.Day.IsZero() && n.Day.Sub(a.Day).Hours() > 36 {
			label = page.Pad(n.Day.Format("Mon 2"), 10)
		}
		p.Fold(label, n.Name+": "+said(n.Verdict, onward(n, units)))
	}
	p.Fold("Home      ", said(a.Home, a.HomeWhy))
	p.Line("")
	p.Fold("", fmt.Sprintf("lasts: sessions, nine cases in ten; then: expected after the day. ?: not read; (7.0): by the car's profile. A yes takes %.0f %%. A planning estimate: inspect before every session.", 100*a.Least))
	return p.Flush()
}

// wide is the width from which a table has room for its words.
const wide = 80

// said is a verdict and its reason.
func said(verdict, why string) string {
	if why == "" {
		return verdict
	}
	return verdict + ": " + why
}

// onward is what has to be for the next circuit day.
func onward(n *plan.NextDay, u quantity.System) string {
	if n.Verdict != plan.Yes {
		return n.Why
	}
	var out []string
	if len(n.Fit) > 0 {
		out = append(out, "spare "+plan.Listed(n.Fit)+" on first")
	}
	if t := n.Turns; t != nil {
		turned := "off"
		if t.Action == plan.Bring {
			turned = "spare on first"
		}
		out = append(out, fmt.Sprintf("%s if %s is under %s", turned, strings.TrimSpace(t.Place+" "+cmp.Or(t.Zone, string(t.Measure))), t.Measure.Wants(u, t.Under)))
	}
	return strings.Join(out, "; ")
}

// then is what is expected of a set's weakest point once the day is done.
func then(s plan.PaddockSet, u quantity.System) string {
	if !s.Measure.Info().Length || s.Read == nil {
		return ""
	}
	return s.Measure.Show(u, s.Expect)
}

// chance is a chance in four letters.
func chance(c float64) string {
	return strings.NewReplacer("over ", ">", "under ", "<", " ", "").Replace(quantity.Chance(c))
}

// named is a set in a few letters, with where it ends first.
func named(s plan.PaddockSet, most int) string {
	name := strings.TrimSuffix(s.Name, " bearing")
	place, _, _ := strings.Cut(s.Where, " ")
	if len(place) == 2 && !strings.HasPrefix(name, place) {
		name += " " + place
	}
	return page.Cut(name, most)
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
