package planner

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
)

// TestEveryRowIsNamed: every row of the logbook counts, or is named with the
// reason why it does not. A row that is said not to be used changes nothing.
func TestEveryRowIsNamed(t *testing.T) {
	randomcar.Check(t, 200, func(t *rapid.T) {
		o := randomcar.Draw(t, 40)
		f := loaded(t, o)
		effects := []profiles.Effect{profiles.Counts, profiles.Doubted, profiles.TakenBack, profiles.NotUsed}
		named := map[int]int{} // by line; the header is line 1
		for _, e := range f.Evidence {
			named[e.Line]++
			if !slices.Contains(effects, e.Effect) || e.Effect != profiles.Counts && e.Why == "" {
				t.Errorf("%s: %q, %q", e.Entry, e.Effect, e.Why)
			}
			if e.Effect != profiles.NotUsed {
				continue
			}
			without := o.Clone()
			without.Rows = slices.Delete(without.Rows, e.Line-2, e.Line-1)
			if diff := cmp.Diff(f.Car.Fitted, loaded(t, without).Car.Fitted); diff != "" {
				t.Errorf("%s: not used, but without it the car is another (-with +without):\n%s", e.Entry, diff)
			}
		}
		for i, row := range o.Rows {
			if named[i+2] != 1 {
				t.Errorf("row %d, %+v, is named %d times", i+1, row, named[i+2])
			}
		}
	})
}
