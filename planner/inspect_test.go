package planner

import (
	"math"
	"strings"
	"testing"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// fitted is the entry of a part at a place of the folder's car.
func fitted(f *profiles.Folder, k profiles.Kind, at string) *profiles.Fitted {
	_, entry := f.On(k, at)
	return entry
}

// found plans the demo with one finding written into it.
func found(t *testing.T, today time.Time, write func(f *profiles.Folder)) *plan.Plan {
	t.Helper()
	f, trip := demo(t, "juniper")
	write(f)
	p, err := Make(f, trip, Options{Draws: 500, Today: today})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// What forbids driving stops the plan whatever the forecast says: the set is
// renewed before leaving, or the car stays, and the plan is not safe as the
// car stands. Play, roughness or a moved nut mark is a fail, and so is a crack
// at an edge. Common practice, no source.
func TestStops(t *testing.T) {
	for _, row := range []struct {
		set, place, reason string
		want               plan.Action
		write              func(*profiles.Folder)
	}{
		{"rotors-front", "LF", "a crack reaches the edge", plan.ReplaceBefore, func(f *profiles.Folder) {
			fitted(f, profiles.Rotors, "LF").Face = map[string]logbook.Finding{"LF": "edge", "RF": "smooth"}
		}},
		{"hub-LR", "LR", "play at 12 and 6", plan.ReplaceBefore, func(f *profiles.Folder) {
			fitted(f, profiles.Bearing, "LR").Feel = map[string]logbook.Finding{"LR": "play"}
		}},
		{"hub-RF", "RF", "rough", plan.ReplaceBefore, func(f *profiles.Folder) {
			fitted(f, profiles.Bearing, "RF").Feel = map[string]logbook.Finding{"RF": "rough"}
		}},
		{"hub-RR", "RR", "has moved", plan.ReplaceBefore, func(f *profiles.Folder) {
			fitted(f, profiles.Bearing, "RR").Feel = map[string]logbook.Finding{"RR": "moved"}
		}},
		{"tires-front", "RF", "cords show", plan.ReplaceBefore, func(f *profiles.Folder) {
			fitted(f, profiles.Tire, "RF").Found = map[string]logbook.Finding{"RF": "cords"}
		}},
		{"tires-rear", "LR", "a cut", plan.ReplaceBefore, func(f *profiles.Folder) {
			fitted(f, profiles.Tire, "LR").Found = map[string]logbook.Finding{"LR": "cut"}
		}},
		{"tires-front", "LF", "past the 10 that tire makers allow", plan.ReplaceBefore, func(f *profiles.Folder) {
			fitted(f, profiles.Tire, "LF").Built = map[string]string{"LF": "1817"} // ten years old by 1 May 2027
		}},
		{"pads-rear", "RR", "backing plate", plan.ReplaceBefore, func(f *profiles.Folder) {
			fitted(f, profiles.Pads, "RR").Lining = map[string]logbook.Finding{"RR": "plate"}
		}},
		{"fluid", "system", "soft pedal", plan.ReplaceBefore, func(f *profiles.Folder) { fitted(f, profiles.Fluid, "system").Pedal = "soft" }},
		{"fluid", "system", "long pedal", plan.DoNotTake, func(f *profiles.Folder) { fitted(f, profiles.Fluid, "system").Pedal = "long" }},
	} {
		p := found(t, time.Time{}, row.write)
		s := setOf(p, t, row.set)
		if s.Decision.Action != row.want || p.Safe || len(s.Stop) != 1 || !strings.Contains(s.Decision.Reason, row.reason) ||
			!strings.HasPrefix(s.Decision.Reason, row.place) || s.Decision.PAsIs != 1 && row.set != "fluid" {
			t.Errorf("%s, %s: %s, safe %v, as it is %g: %s", row.set, row.reason, s.Decision.Action, p.Safe, s.Decision.PAsIs, s.Decision.Reason)
		}
	}
}

// A part that cannot be there before leaving leaves no way to go.
func TestStopWithoutPart(t *testing.T) {
	late := time.Date(2027, 5, 12, 0, 0, 0, 0, time.UTC) // the day before, and a hub takes six
	p := found(t, late, func(f *profiles.Folder) {
		fitted(f, profiles.Bearing, "LR").Feel = map[string]logbook.Finding{"LR": "play"}
		for i := range f.Car.Shelf {
			f.Car.Shelf[i].Quantity = 5
		}
	})
	if d := setOf(p, t, "hub-LR").Decision; d.Action != plan.DoNotTake || p.Safe || !strings.Contains(d.Reason, "play") {
		t.Errorf("%s: %s", d.Action, d.Reason)
	}
}

// Nobody drives a circuit on cracks that catch a fingernail; those that do not,
// and a smooth face, leave the forecast as it is. Common practice, no source.
func TestFaces(t *testing.T) {
	start := func(face logbook.Finding) (plan.Set, float64) {
		p := found(t, time.Time{}, func(f *profiles.Folder) {
			fitted(f, profiles.Rotors, "LF").Face = map[string]logbook.Finding{"LF": face, "RF": face}
		})
		s := setOf(p, t, "rotors-front")
		return s, s.Points[0].Start
	}
	plain, _ := demo(t, "juniper")
	given := 1 - float64(fitted(plain, profiles.Rotors, "LF").Used["LF"])
	for face, want := range map[logbook.Finding]float64{"smooth": given, "checks": given, "catches": 0} {
		s, got := start(face)
		if math.Abs(got-want) > 1e-12 || (len(s.Stop) > 0) != (face == "catches") {
			t.Errorf("%s: starts at %g, want %g", face, got, want)
		}
		if crosses := s.Decision.PAsIs > 0.9; crosses != (face == "catches") {
			t.Errorf("%s: %s (%s)", face, s.Decision.Action, s.Decision.Reason)
		}
	}
}

// A pad at its indicator is put at its margin, one worn aslant and a tire past
// six years are watched, dark fluid is taken as wet.
func TestSeen(t *testing.T) {
	p := found(t, time.Time{}, func(f *profiles.Folder) {
		fitted(f, profiles.Pads, "LF").Lining = map[string]logbook.Finding{"LF": "indicator"}
		fitted(f, profiles.Pads, "LR").Lining = map[string]logbook.Finding{"LR": "taper", "RR": "even"}
		fitted(f, profiles.Tire, "LF").Built = map[string]string{"LF": "0120", "RF": "0124"}
		fitted(f, profiles.Fluid, "system").Color = "dark"
	})
	front := setOf(p, t, "pads-front")
	if front.Points[0].Start != front.Points[0].Margin || front.Points[1].Start == front.Points[1].Margin {
		t.Errorf("indicator at LF: starts at %v and %v", front.Points[0].Start, front.Points[1].Start)
	}
	rear := setOf(p, t, "pads-rear").Decision
	if rear.Action != plan.Watch || !strings.Contains(rear.Reason, "aslant") {
		t.Errorf("worn aslant: %s: %s", rear.Action, rear.Reason)
	}
	if s := setOf(p, t, "tires-front"); !strings.Contains(strings.Join(s.Seen, " "), "LF is 7 years old") || len(s.Seen) != 1 {
		t.Errorf("a tire of 2020: %v", s.Seen)
	}
	fresh, trip := demo(t, "juniper")
	was := setOf(planned(t, fresh, trip), t, "fluid")
	is := setOf(p, t, "fluid")
	last := len(p.Legs) - 1
	if lost := was.Points[0].After[last].P50 - is.Points[0].After[last].P50; lost < 100 {
		t.Errorf("dark fluid: %.0f K less margin; dry and wet are 124 K apart", lost)
	}
	if !p.Safe {
		t.Error("nothing here forbids to drive")
	}
}
