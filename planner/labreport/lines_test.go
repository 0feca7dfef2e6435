package labreport

import (
	"math"
	"testing"

	"example.com/tripwear/wearmodel/oil"
)

// The lines that plans use from now on: the ceiling is what the report lets it
// run, of a flagged fill no more than it had been through, and never more than
// the owner's; the interval keeps under it. Below 100 miles both are a change
// now.
func TestNextLines(t *testing.T) {
	const mi = 1609.344
	for _, c := range []struct {
		what                                              string
		verdict                                           oil.Verdict
		ceiling, first, supported, equivalent, next, most float64 // miles
	}{
		{"clean", oil.Fine, 6000, 8000, 4000, 3000, 4000, 6000},
		{"a limit before the ceiling", oil.Fine, 6000, 5000, 5500, 3000, 5000, 5000},
		{"flagged", oil.Flagged, 6000, 5000, 2500, 3000, 2500, 3000},
		{"flagged, through nothing that is known", oil.Flagged, 6000, 5000, 2500, 0, 2500, 5000},
		{"flagged at once", oil.Flagged, 6000, 50, 20, 60, 100, 100},
	} {
		r := Reading{Ceiling: c.ceiling * mi, Equivalent: c.equivalent * mi}
		r.Verdict, r.FirstLimit, r.Supported = c.verdict, c.first*mi, c.supported*mi
		r.lines()
		if math.Abs(r.Next/mi-c.next) > 1e-9 || math.Abs(r.NextCeiling/mi-c.most) > 1e-9 {
			t.Errorf("%s: interval %.0f, ceiling %.0f; want %.0f and %.0f", c.what, r.Next/mi, r.NextCeiling/mi, c.next, c.most)
		}
	}
}
