package report

import (
	"fmt"
	"strings"

	"example.com/tripwear/planner/page"
	"example.com/tripwear/profiles/quantity"
)

// worthNaming is the gain (K) from which a change is named. Engineering choice.
const worthNaming = 5

// cooling says how near the brake fluid comes to boiling, and what would
// widen the margin where it is thin.
func (t text) cooling() {
	for _, c := range t.Cooling {
		unit := quantity.Warmth[t.Units]
		t.Note("%s, fluid %.1f years old: lowest margin by session, nominal, %s %s.", t.Legs[c.Leg].Name, c.Years, page.Joined(c.BySession, unit.Number), unit.Name)
		if !c.Thin {
			continue
		}
		var steps []string
		name := func(what string, margin float64) {
			if margin > c.Margin+worthNaming {
				steps = append(steps, what+" "+t.Warmth(margin))
			}
		}
		name("a flush before leaving", c.Flushed)
		name("ducts to the front rotors, as half as much area again (assumed),", c.Ducted)
		if c.ShortTime > 0 {
			name(fmt.Sprintf("sessions of %.0f min", c.ShortTime/60), c.Shorter)
		}
		if len(steps) > 0 {
			t.Fold("    ", "To widen it from "+t.Warmth(c.Margin)+": "+strings.Join(steps, "; ")+".")
		}
	}
}
