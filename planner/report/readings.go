package report

import (
	"fmt"
	"strings"

	"example.com/tripwear/planner/plan"
)

// readings lists what to read before the answer can be given, with what each
// side decides.
func (p printer) readings(list []plan.Deciding) {
	if len(list) == 0 {
		return
	}
	p.Line("Read these first, they decide; below is the plan for the worse")
	for _, r := range list {
		p.Tell("READ", r.Say(p.Units)+".")
	}
}

// restsOn says near the top what was read and what is a guess.
func (p printer) restsOn(sets []plan.Set) {
	read, guessed := plan.RestsOn(sets)
	if len(guessed) == 0 {
		return
	}
	p.Tell("Rests on", fmt.Sprintf("%d of %d sets read; by the model and not read: %s.", len(read), plan.Readable(sets), plan.Listed(guessed)))
}

// sentence is a clause as a sentence.
func sentence(s string) string {
	if s == "" {
		return ""
	}
	return strings.ToUpper(s[:1]) + strings.TrimSuffix(s[1:], ".") + "."
}
