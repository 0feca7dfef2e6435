package report

import (
	"fmt"
	"strings"

	"example.com/tripwear/profiles/quantity"
)

// worthFlushing is the gain (K) from which a flush is named. Engineering choice.
const worthFlushing = 5

// cooling says how near the brake fluid comes to boiling, and what would
// widen the margin where it is thin.
func (t text) cooling() {
	for _, c := range t.Cooling {
		unit := quantity.Warmth[t.units]
		t.note("%s, fluid %.1f years old: lowest margin by session, nominal, %s %s.", t.Legs[c.Leg].Name, c.Years, joined(c.BySession, unit.Number), unit.Name)
		if !c.Thin {
			continue
		}
		var steps []string
		if c.Flushed > c.Margin+worthFlushing {
			steps = append(steps, "a flush before leaving "+t.warmth(c.Flushed))
		}
		steps = append(steps, "ducts to the front rotors, as half as much area again (assumed), "+t.warmth(c.Ducted))
		if c.ShortTime > 0 {
			steps = append(steps, fmt.Sprintf("sessions of %.0f min %s", c.ShortTime/60, t.warmth(c.Shorter)))
		}
		t.fold("    ", "That is thin. Instead of "+t.warmth(c.Margin)+": "+strings.Join(steps, "; ")+".")
	}
}
