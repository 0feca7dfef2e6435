package planner

import (
	"bytes"
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

// A value-line unit lasts 0.2 to 0.3 of an original (trade press, at second
// hand): every leg takes 3.3 to 5 times as much of its life, and the chance
// that it fails is the greater.
func TestValueHub(t *testing.T) {
	var sets []plan.Set
	for _, class := range []string{"hub-bearing", "hub-bearing-value"} {
		files := folder(t, "", "")
		parts := files["parts.yaml"]
		parts.Data = bytes.ReplaceAll(parts.Data, []byte("class: hub-bearing\n"), []byte("class: "+class+"\n"))
		f, err := profiles.Load(files)
		if err != nil {
			t.Fatal(err)
		}
		sets = append(sets, setOf(planned(t, f, f.Trips["spring"]), t, "hub-LF"))
	}
	original, value := sets[0], sets[1]
	for i, loss := range value.Points[0].Loss {
		if ratio := loss / original.Points[0].Loss[i]; original.Points[0].Loss[i] > 0 && (ratio < 1/0.3 || ratio > 1/0.2) {
			t.Errorf("leg %d takes %.2f times the life", i+1, ratio)
		}
	}
	if value.Decision.PAsIs <= original.Decision.PAsIs {
		t.Errorf("chance to fail %.3f, an original %.3f", value.Decision.PAsIs, original.Decision.PAsIs)
	}
}
