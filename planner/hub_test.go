package planner

import (
	"strings"
	"testing"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
)

// Hub units that were replaced average 85,000-118,000 miles (trade press): one
// past that, or of which nobody knows the age, is never simply run on, and what
// nobody knows is no better than what is known to be as old.
func TestOldHubs(t *testing.T) {
	chance := map[string]float64{}
	for _, name := range []string{"known", "unknown"} {
		f, trip := demo(t, "juniper")
		f.Car.Odometer, f.Car.Written = 270000*mile, 270000*mile
		e := fitted(f, profiles.Bearing, "LF")
		e.Since.Odometer, e.Since.Unmetered, e.CircuitDays = 0, name == "unknown", 40
		s := setOf(planned(t, f, trip), t, "hub-LF")
		chance[name] = s.Decision.PAsIs
		t.Logf("%s: %s: %s", name, s.Decision.Action, s.Decision.Reason)
		if s.Decision.Action == plan.Run || !strings.Contains(s.Decision.Reason, "LF: ") {
			t.Errorf("%s: %s, %s", name, s.Decision.Action, s.Decision.Reason)
		}
	}
	if chance["unknown"] < chance["known"] || chance["unknown"] < 0.03 {
		t.Errorf("chances to fail: %v", chance)
	}
}
