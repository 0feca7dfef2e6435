package plan

import (
	"fmt"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles/quantity"
)

// The four verdicts.
const (
	Yes     = "YES"
	YesOnce = "YES, ONCE"
	No      = "NO, NOT AS IT STANDS"
	CantSay = "CAN'T SAY YET"
)

// TurnsAt is how likely a reading turns a decision before the answer waits for
// it. What nobody read is planned from the level that all but this share of
// cases is above. Engineering choice.
const TurnsAt = 0.10

// Deciding is a reading that nobody took and that could turn the answer.
// Levels are as the measure counts.
type Deciding struct {
	Set       string       `json:"set"` // id
	Name      string       `json:"name"`
	Place     string       `json:"place"`
	Zone      string       `json:"zone"`
	Measure   kind.Measure `json:"measure"`
	Guess     float64      `json:"guess"`     // median
	Threshold float64      `json:"threshold"` // level at which the decision turns
	Above     string       `json:"above"`     // what a reading of so much or more decides
	Below     string       `json:"below"`
	Chance    float64      `json:"chance"` // that the reading turns the decision
}

// Say puts a reading in words, with what each side of it decides.
func (d Deciding) Say(u quantity.System) string {
	sides := fmt.Sprintf("%s; %s", d.Above, d.Below)
	if d.Measure.Info().Length {
		sides = fmt.Sprintf("guess %s; %s or more: %s; less: %s", d.Measure.Show(u, d.Guess), d.Measure.Show(u, d.Threshold), d.Above, d.Below)
	}
	return fmt.Sprintf("%s, %s first: %s (%.0f %% chance that it turns the answer)", d.Name, strings.TrimSpace(d.Place+" "+d.Zone), sides, 100*d.Chance)
}

// RestsOn names the sets that were read, and those that could hurt someone, could
// be looked at, and were not.
func RestsOn(sets []Set) (read, guessed []string) {
	for _, s := range sets {
		switch {
		case s.Read:
			read = append(read, s.Name)
		case s.Critical && !kind.Of(s.Kind).Counted:
			guessed = append(guessed, s.Name)
		}
	}
	return read, guessed
}

// Readable is how many sets a reading or a look could tell of: the life of others
// is counted, unless something was found on them.
func Readable(sets []Set) int {
	n := 0
	for _, s := range sets {
		if s.Read || !kind.Of(s.Kind).Counted {
			n++
		}
	}
	return n
}

// Headline is the verdict with what has to be done first.
func (p *Plan) Headline() string {
	if p.Verdict != YesOnce {
		return p.Verdict
	}
	var names []string
	for _, s := range p.Sets {
		if s.Decision.Action == ReplaceBefore {
			names = append(names, s.Name)
		}
	}
	are := "ARE"
	if len(names) == 1 && !strings.HasSuffix(names[0], "s") {
		are = "IS"
	}
	what := Listed(names)
	if len(names) > 3 {
		what = fmt.Sprintf("%s and %d other sets", strings.Join(names[:2], ", "), len(names)-2)
	}
	return strings.ToUpper(fmt.Sprintf("%s the %s %s new", YesOnce, what, are))
}

// Listed joins names as a sentence does.
func Listed(names []string) string {
	if n := len(names) - 1; n > 0 {
		return strings.Join(names[:n], ", ") + " and " + names[n]
	}
	return strings.Join(names, "")
}
