package report

import (
	"cmp"
	"fmt"
	"strings"

	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// actions in the order in which they are done, each with its title in the
// answer and the word before a set.
var actions = []struct {
	plan.Action
	title, word string
}{
	{plan.DoNotTake, "Do not take the car", "STOP"},
	{plan.ReplaceBefore, "Replace before leaving", "REPLACE"},
	{plan.Bring, "Bring a spare, to fit in the paddock if it comes to that", "BRING"},
	{plan.ReplaceAtStop, "On the way", "STOP"},
	{plan.Watch, "Watch", "WATCH"},
	{plan.Run, "Runs the whole way", "RUN"},
}

// act is an action in a sentence: with the stop that it is done at, and with
// whether a spare goes along besides.
func act(a plan.Action, stop string, spare bool) string {
	switch {
	case a == plan.ReplaceAtStop:
		return "replace at " + cmp.Or(stop, "a stop")
	case a == plan.Bring:
		return "bring a spare"
	case spare:
		return string(a) + " and bring a spare"
	}
	return string(a)
}

// actions says what is done about each set; those that just run share a line.
func (t text) actions() {
	for _, a := range actions {
		var sets []plan.Set
		for _, s := range t.Sets {
			if s.Decision.Action == a.Action {
				sets = append(sets, s)
			}
		}
		if len(sets) == 0 {
			continue
		}
		t.Line("%s", t.Now(a.title))
		if a.Action == plan.Run {
			t.Tell(a.word, page.Joined(sets, func(s plan.Set) string { return s.Name }))
			continue
		}
		for _, s := range sets {
			name := s.Name
			if a.Action == plan.ReplaceAtStop {
				name = t.Legs[s.Decision.Leg].Name + ": " + name
			}
			if s.Decision.Spare {
				name += ", and bring a spare"
			}
			t.Tell(a.word, name+": "+s.Decision.Reason+".")
			if due := s.Decision.Due; due != nil {
				t.Tell("", fmt.Sprintf("It is due after about %s of %s.", t.Travel(due.Meters), t.Legs[due.Leg].Name))
			}
			t.safer(s)
			if other := t.otherwise(s.Decision); other != "" && s.Decision.Due == nil {
				t.Tell("", "Otherwise: "+other+".")
			}
		}
	}
}

// otherwise says what the next best action would be, and what would change
// the answer.
func (t text) otherwise(d plan.Decision) string {
	var parts []string
	if n := d.Next; n != nil {
		stop := ""
		if n.Leg >= 0 {
			stop = t.Legs[n.Leg].Name
		}
		parts = append(parts, fmt.Sprintf("%s (expected to cost %s more, chance of being stopped short %s)", t.Now(act(n.Action, stop, n.Spare)), t.money(n.Extra), quantity.Chance(n.POut)))
	}
	if f := d.Flip; f != nil {
		side, leg := "above", t.Legs[f.Leg]
		if f.Less {
			side = "below"
		}
		usage := fmt.Sprintf("about %d laps at %s", f.Laps, leg.Circuit)
		if leg.Kind == profiles.RoadLeg {
			usage = "about " + t.Travel(f.Meters) + " on " + leg.Name
		}
		parts = append(parts, fmt.Sprintf("%s %s, %s", side, usage, act(f.Action, "", false)))
	}
	return strings.Join(parts, "; ")
}

// leftOut says what the trunk has no room for.
func (t text) leftOut() {
	for _, l := range t.Choice.LeftOut {
		for _, s := range t.Sets {
			if s.ID == l.Set {
				t.Tell("LEFT", fmt.Sprintf("%s: to %s would save about %s, but it takes %s and %s, and the trunk has no room.",
					s.Name, act(l.Action, "", false), t.money(l.Saving), quantity.Boot[t.Units].Text(l.Volume), quantity.Weight[t.Units].Text(l.Mass)))
			}
		}
	}
}

// safer says what would make a set safe, and that nothing was found where
// nothing was.
func (t text) safer(s plan.Set) {
	for i, c := range s.Decision.Safer {
		t.Tell("", []string{"Smallest change: ", "Or: "}[min(i, 1)]+t.change(c)+".")
	}
	if t.Tried > 0 && len(s.Decision.Safer) == 0 && (s.Decision.Action == plan.DoNotTake || s.Decision.Due != nil) {
		t.Tell("", "No single change of those tried makes it safe.")
	}
}

// change is a change with where, its price and its day.
func (t text) change(c plan.Change) string {
	out := c.What
	if c.At != nil {
		out += ", after about " + t.Travel(c.At.Meters)
	}
	out += " (" + c.Costs(t.money)
	if !c.Date.IsZero() && c.Days == 0 {
		out += ", order by " + c.Date.Format("2 Jan 2006")
	}
	return out + ")"
}
