package report

import (
	"fmt"
	"strings"

	"example.com/tripwear/profiles/quantity"
)

// leanings says which assumptions move the answer most, one line each.
func (t text) leanings() {
	if len(t.Leanings) == 0 {
		return
	}
	t.Note("What moves this answer most, each tried at the end of its own range, one case in ten beyond:")
	for _, l := range t.Leanings {
		what := fmt.Sprintf("%.2g times %s (%s)", l.Times, l.What, strings.Join(l.Usual, ", "))
		chance := fmt.Sprintf("%s chance to %s, %s as it is", quantity.Chance(l.To), l.End, quantity.Chance(l.From))
		if l.Turned == 0 {
			t.Fold("  - ", fmt.Sprintf("%s turns nothing; it moves the %s most: %s", what, l.Name, chance))
			continue
		}
		others := ""
		if l.Turned > 1 {
			others = fmt.Sprintf("; %d more turn", l.Turned-1)
		}
		t.Fold("  - ", fmt.Sprintf("%s turns the %s from %s to %s (%s)%s", what, l.Name, l.Action, l.Turns, chance, others))
	}
	t.Note("All that is assumed:")
}
