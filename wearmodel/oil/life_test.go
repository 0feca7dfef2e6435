package oil

import (
	"testing"
)

func TestUsed(t *testing.T) {
	l := Limits{Interval: 4000, Ceiling: 8000, Months: 12}
	for _, row := range []struct{ distance, months, interval, ceiling float64 }{
		{0, 0, 0, 0}, {2000, 1, 0.5, 0.25}, {2000, 9, 0.75, 0.75}, {6000, 3, 1.5, 0.75}, {0, 18, 1.5, 1.5},
	} {
		interval, ceiling := l.Used(row.distance, row.months)
		near(t, "interval", interval, row.interval, 1e-12)
		near(t, "ceiling", ceiling, row.ceiling, 1e-12)
	}
	if interval, ceiling := (Limits{}).Used(1e6, 12); interval != 0 || ceiling != 0 {
		t.Errorf("no limits set: used %g, %g", interval, ceiling)
	}
}

// An owner who changes at 3,000-4,000 miles and once goes to about 6,000
// highway miles with a circuit weekend: past his interval, inside the maker's
// ceiling. Common practice, no source; the ceiling is that of EP0231055.
func TestStretch(t *testing.T) {
	l := Limits{Interval: 3500 * mile, Ceiling: 7500 * mile, Months: 12}
	run := RoadEquivalent(6000*mile, 1, 95) + CircuitEquivalent(10*20*60, 125)
	for _, row := range []struct {
		distance, months float64
		stretched, past  bool
	}{{3000 * mile, 4, false, false}, {run, 6, true, false}, {run, 13, true, true}, {run + 600*mile, 6, true, true}} {
		interval, ceiling := l.Used(row.distance, row.months)
		if interval > 1 != row.stretched || ceiling > 1 != row.past {
			t.Errorf("%.0f miles, %.0f months: %.2f of the interval, %.2f of the ceiling", row.distance/mile, row.months, interval, ceiling)
		}
	}
}
