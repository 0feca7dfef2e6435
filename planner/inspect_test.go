package planner

import (
	"math"
	"strings"
	"testing"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// fitted is the entry of a part at a place of the folder's car.
func fitted(f *profiles.Folder, k profiles.Kind, at string) *profiles.Fitted {
	_, entry := f.On(k, at)
	return entry
}

// found plans the demo with one finding written into it.
func found(t *testing.T, today time.Time, write func(f *profiles.Folder)) *Plan {
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
		want               Action
		write              func(*profiles.Folder)
	}{
		{"rotors-front", "LF", "a crack reaches the edge", RenewBefore, func(f *profiles.Folder) {
			fitted(f, profiles.Rotors, "LF").Face = map[string]logbook.Finding{"LF": "edge", "RF": "smooth"}
		}},
		{"hub-LR", "LR", "play at 12 and 6", RenewBefore, func(f *profiles.Folder) {
			fitted(f, profiles.Bearing, "LR").Feel = map[string]logbook.Finding{"LR": "play"}
		}},
		{"hub-RF", "RF", "rough", RenewBefore, func(f *profiles.Folder) {
			fitted(f, profiles.Bearing, "RF").Feel = map[string]logbook.Finding{"RF": "rough"}
		}},
		{"hub-RR", "RR", "has moved", RenewBefore, func(f *profiles.Folder) {
			fitted(f, profiles.Bearing, "RR").Feel = map[string]logbook.Finding{"RR": "moved"}
		}},
		{"tires-front", "RF", "cords show", RenewBefore, func(f *profiles.Folder) {
			fitted(f, profiles.Tire, "RF").Found = map[string]logbook.Finding{"RF": "cords"}
		}},
		{"tires-rear", "LR", "a cut", RenewBefore, func(f *profiles.Folder) {
			fitted(f, profiles.Tire, "LR").Found = map[string]logbook.Finding{"LR": "cut"}
		}},
		{"tires-front", "LF", "past the 10 that tire makers allow", RenewBefore, func(f *profiles.Folder) {
			fitted(f, profiles.Tire, "LF").Built = map[string]string{"LF": "1817"} // ten years old by 1 May 2027
		}},
		{"pads-rear", "RR", "backing plate", RenewBefore, func(f *profiles.Folder) {
			fitted(f, profiles.Pads, "RR").Lining = map[string]logbook.Finding{"RR": "plate"}
		}},
		{"fluid", "system", "soft pedal", RenewBefore, func(f *profiles.Folder) { fitted(f, profiles.Fluid, "system").Pedal = "soft" }},
		{"fluid", "system", "long pedal", DoNotTake, func(f *profiles.Folder) { fitted(f, profiles.Fluid, "system").Pedal = "long" }},
	} {
		p := found(t, time.Time{}, row.write)
		s := p.set(t, row.set)
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
	if d := p.set(t, "hub-LR").Decision; d.Action != DoNotTake || p.Safe || !strings.Contains(d.Reason, "play") {
		t.Errorf("%s: %s", d.Action, d.Reason)
	}
}

// Cracks that catch a fingernail leave a tenth of the life at most; those that
// do not, and a smooth face, leave the forecast as it is. Common practice, no
// source.
func TestFaces(t *testing.T) {
	start := func(face logbook.Finding) (Set, float64) {
		p := found(t, time.Time{}, func(f *profiles.Folder) {
			fitted(f, profiles.Rotors, "LF").Face = map[string]logbook.Finding{"LF": face, "RF": face}
		})
		s := p.set(t, "rotors-front")
		return s, s.Points[0].Start
	}
	plain, _ := demo(t, "juniper")
	given := 1 - float64(fitted(plain, profiles.Rotors, "LF").Used["LF"])
	for face, want := range map[logbook.Finding]float64{"smooth": given, "checks": given, "catches": 0.1} {
		s, got := start(face)
		if math.Abs(got-want) > 1e-12 || len(s.Stop) > 0 {
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
		fitted(f, profiles.Fluid, "system").Colour = "dark"
	})
	front := p.set(t, "pads-front")
	if front.Points[0].Start != front.Points[0].Margin || front.Points[1].Start == front.Points[1].Margin {
		t.Errorf("indicator at LF: starts at %v and %v", front.Points[0].Start, front.Points[1].Start)
	}
	rear := p.set(t, "pads-rear").Decision
	if rear.Action != Watch || !strings.Contains(rear.Reason, "aslant") {
		t.Errorf("worn aslant: %s: %s", rear.Action, rear.Reason)
	}
	if s := p.set(t, "tires-front"); !strings.Contains(strings.Join(s.Seen, " "), "LF is 7 years old") || len(s.Seen) != 1 {
		t.Errorf("a tire of 2020: %v", s.Seen)
	}
	fresh, trip := demo(t, "juniper")
	was := plan(t, fresh, trip).set(t, "fluid")
	is := p.set(t, "fluid")
	last := len(p.Legs) - 1
	if lost := was.Points[0].After[last].P50 - is.Points[0].After[last].P50; lost < 100 {
		t.Errorf("dark fluid: %.0f K less margin; dry and wet are 124 K apart", lost)
	}
	if !p.Safe {
		t.Error("nothing here forbids to drive")
	}
}

// A tire's age, by hand: a code of week 18 of 2017 is ten years old on 30 April
// 2027. At six years and at ten nothing is said yet; a day later it is. A code
// later than the trip is doubted, one of the day itself is not. The years are
// from memory.
func TestTireAge(t *testing.T) {
	for _, row := range []struct {
		code         string // the trip ends in the 17th week of 2027, on 30 April
		stop, watch  bool
		seen, failed string
	}{
		{"1727", false, false, "", ""},
		{"1821", false, false, "", ""}, // six years in three days
		{"1621", false, true, "LF is 6 years old: past the 6", ""},
		{"1917", false, true, "LF is 10 years old: past the 6", ""},
		{"1617", true, false, "", "LF: built 10 years before the trip ends"},
		{"2027", false, true, "LF has a week code later than the trip", ""},
		{"", false, false, "", ""},
	} {
		tread := kind.Point{Measure: kind.Tread, Limit: 2}
		s := &set{points: []point{{Point: Point{Place: "LF", Start: 5, Limit: 2, Measure: Tread}, from: 5, spec: tread}, {Point: Point{Place: "RF", Start: 5, Limit: 2, Measure: Tread}, spec: tread}}}
		end := time.Date(2027, 4, 30, 0, 0, 0, 0, time.UTC)
		entry := &profiles.Fitted{Built: map[string]string{"LF": row.code}}
		s.inspect(kind.Tire.Inspect(kind.At{Place: "LF", Entry: entry, End: end}), "LF")
		if (len(s.Stop) > 0) != row.stop || s.watched != row.watch || !strings.HasPrefix(strings.Join(s.Seen, ""), row.seen) || !strings.HasPrefix(strings.Join(s.Stop, ""), row.failed) || (row.seen == "") != (len(s.Seen) == 0) {
			t.Errorf("%q: stop %v, watched %v, seen %v", row.code, s.Stop, s.watched, s.Seen)
		}
		if want := map[bool]float64{true: 2, false: 5}[row.stop]; s.points[0].Start != want || s.points[1].Start != 5 {
			t.Errorf("%q: starts at %g and %g", row.code, s.points[0].Start, s.points[1].Start)
		}
	}
	entry := &profiles.Fitted{Built: map[string]string{"LF": "1817"}}
	if got := kind.Tire.Inspect(kind.At{Place: "LF", Entry: entry}); len(got) != 0 {
		t.Errorf("without a date: %v", got)
	}
}

// What fails a place takes its points to their limits and leaves a rotor's
// thickness alone, which is measured; what is lower already stays.
func TestFail(t *testing.T) {
	s := &set{points: []point{
		{Point: Point{Place: "LF", Measure: Crack, Start: 0.7}, from: 0.8, gauge: 0.1, wornRoad: 0.05, wornCircuit: 0.05, spec: kind.Point{Measure: kind.Crack}},
		{Point: Point{Place: "LF", Measure: Thickness, Start: 24, Limit: 20}, from: 24, gauge: 0.1, spec: kind.Point{Measure: kind.Thickness, Limit: 20, Also: true}},
		{Point: Point{Place: "RF", Measure: Crack, Start: 0.7}, from: 0.7, gauge: 0.1},
		{Point: Point{Place: "LF", Measure: BoilMargin, Start: -3}, from: -3, gauge: 2, cap: []float64{40, -5}},
	}}
	entry := &profiles.Fitted{Face: map[string]logbook.Finding{"LF": logbook.Edge}}
	s.inspect(kind.Rotors.Inspect(kind.At{Place: "LF", Entry: entry}), "LF")
	a, b, c, d := s.points[0], s.points[1], s.points[2], s.points[3]
	if a.Start != 0 || a.from != 0 || a.gauge != 0 || a.wornRoad != 0 || a.wornCircuit != 0 {
		t.Errorf("failed: %+v", a)
	}
	if b.Start != 24 || b.gauge != 0.1 || c.Start != 0.7 || c.gauge != 0.1 {
		t.Errorf("what was not found: %+v, %+v", b, c)
	}
	if d.Start != -3 || d.gauge != 2 || d.cap[0] != 0 || d.cap[1] != -5 {
		t.Errorf("below its limit already: %+v", d)
	}
}
