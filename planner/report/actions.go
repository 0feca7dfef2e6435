package report

import (
	"cmp"
	"strings"

	"example.com/tripwear/planner/plan"
)

// actions in the order in which they are done, each with its title in the
// answer and the word before a set.
var actions = []struct {
	plan.Action
	title, word string
}{
	{plan.DoNotTake, "Do not take the car", "STOP "},
	{plan.ReplaceBefore, "Renew before leaving", "RENEW"},
	{plan.Bring, "Carry a spare, to be fitted if it comes to that", "CARRY"},
	{plan.ReplaceAtStop, "On the way", "STOP "},
	{plan.Watch, "Watch", "WATCH"},
	{plan.Run, "Runs the whole way", "RUN  "},
}

// act is an action in a sentence: with the stop that it is done at, and with
// whether a spare is carried besides.
func act(a plan.Action, stop string, spare bool) string {
	switch {
	case a == plan.ReplaceAtStop:
		return "renew at " + cmp.Or(stop, "a stop")
	case a == plan.Bring:
		return "carry a spare"
	case spare:
		return string(a) + " and carry a spare"
	}
	return string(a)
}

// stopName is the leg that an action is tied to; "" where it is to none.
func (t text) stopName(leg int) string {
	if leg < 0 {
		return ""
	}
	return t.Legs[leg].Name
}

// actions says what is done about each set; those that just run share a line.
func (t text) actions() {
	for _, a := range actions {
		var run []string
		first := true
		for _, s := range t.Sets {
			d := s.Decision
			if d.Action != a.Action {
				continue
			}
			if first {
				t.line("%s", a.title)
				first = false
			}
			if a.Action == plan.Run {
				run = append(run, s.Name)
				continue
			}
			name := s.Name
			if a.Action == plan.ReplaceAtStop {
				name = t.Legs[d.Leg].Name + ": " + name
			}
			if d.Spare {
				name += " and a spare set along"
			}
			t.fold("  "+a.word+"  ", name+": "+d.Reason+".")
			if other := t.otherwise(d); other != "" {
				t.fold("         ", "Otherwise: "+other+".")
			}
		}
		if len(run) > 0 {
			t.fold("  "+a.word+"  ", strings.Join(run, ", "))
		}
	}
}
