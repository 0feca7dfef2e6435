package report

import (
	"fmt"
	"strings"

	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
)

// standing says where the trip stands: what is driven and decided, and what was
// read beside what was expected.
func (t text) standing() {
	s := t.Standing
	if s == nil {
		return
	}
	at := fmt.Sprintf("%d of %d legs driven; %s, %s, %s", s.Driven, s.Legs, s.Place, s.Day.Format("Mon 2 Jan"), t.Travel(s.Odometer))
	if s.Of > 0 {
		at += fmt.Sprintf("; session %d of %d done", s.Sessions, s.Of)
	}
	t.Fold("", "Where the trip stands: "+at+". What follows is the rest of it: "+t.Travel(s.Left)+" and "+page.Count(s.Days, "circuit day")+" to go.")
	for _, d := range s.Decided {
		what := fmt.Sprintf("%s: %s", d.Name, act(d.Action, d.Stop, false))
		if d.Row > 0 {
			t.Tell("DONE", fmt.Sprintf("%s; a new one went on %s (row %d)", what, d.Done.Format("Mon 2 Jan"), d.Row))
		} else if d.Action == plan.ReplaceBefore {
			t.Tell("DONE?", what+"; no row of the logbook says so. If it is on: tripwear log new "+strings.TrimSuffix(d.Name, " bearing")+" --date, with the odometer after at")
		}
	}
	for _, r := range s.Foretold {
		word, note := "READ", ""
		if r.Read < r.Low {
			note = ", worse than nine cases in ten"
		}
		t.Tell(word, fmt.Sprintf("%s: %s expected, %s read%s", strings.TrimSpace(r.Place+" "+r.Zone+" "+string(r.Measure)), r.Measure.Show(t.Units, r.Expected), r.Measure.Show(t.Units, r.Read), note))
	}
	if len(s.Trunk) > 0 {
		t.Tell("TRUNK", "packed before leaving and not fitted by the logbook: "+page.Joined(s.Trunk, func(it plan.Item) string { return it.Name }))
	}
}
