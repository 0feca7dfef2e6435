package projection

import (
	"strings"
	"testing"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

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
		s := &Set{Levels: []Level{{Point: plan.Point{Place: "LF", Start: 5, Limit: 2, Measure: kind.Tread}, From: 5, Spec: tread}, {Point: plan.Point{Place: "RF", Start: 5, Limit: 2, Measure: kind.Tread}, Spec: tread}}}
		end := time.Date(2027, 4, 30, 0, 0, 0, 0, time.UTC)
		entry := &profiles.Fitted{Built: map[string]string{"LF": row.code}}
		s.inspect(kind.Tire.Inspect(kind.At{Folder: &profiles.Folder{}, Part: profiles.Part{Tire: &profiles.TirePart{}, Rotors: &profiles.RotorsPart{}}, Place: "LF", Entry: entry, End: end}), "LF")
		if (len(s.Stop) > 0) != row.stop || s.Watched != row.watch || !strings.HasPrefix(strings.Join(s.Seen, ""), row.seen) || !strings.HasPrefix(strings.Join(s.Stop, ""), row.failed) || (row.seen == "") != (len(s.Seen) == 0) {
			t.Errorf("%q: stop %v, watched %v, seen %v", row.code, s.Stop, s.Watched, s.Seen)
		}
		if want := map[bool]float64{true: 2, false: 5}[row.stop]; s.Levels[0].Start != want || s.Levels[1].Start != 5 {
			t.Errorf("%q: starts at %g and %g", row.code, s.Levels[0].Start, s.Levels[1].Start)
		}
	}
	entry := &profiles.Fitted{Built: map[string]string{"LF": "1817"}}
	if got := kind.Tire.Inspect(kind.At{Folder: &profiles.Folder{}, Part: profiles.Part{Tire: &profiles.TirePart{}, Rotors: &profiles.RotorsPart{}}, Place: "LF", Entry: entry}); len(got) != 0 {
		t.Errorf("without a date: %v", got)
	}
}

// What fails a place takes its points to their limits and leaves a rotor's
// thickness alone, which is measured; what is lower already stays.
func TestFail(t *testing.T) {
	s := &Set{Levels: []Level{
		{Point: plan.Point{Place: "LF", Measure: kind.Crack, Start: 0.7}, From: 0.8, StartSD: 0.1, wornRoad: 0.05, wornCircuit: 0.05, Spec: kind.Point{Measure: kind.Crack}},
		{Point: plan.Point{Place: "LF", Measure: kind.Thickness, Start: 24, Limit: 20}, From: 24, StartSD: 0.1, Spec: kind.Point{Measure: kind.Thickness, Limit: 20, Also: true}},
		{Point: plan.Point{Place: "RF", Measure: kind.Crack, Start: 0.7}, From: 0.7, StartSD: 0.1},
		{Point: plan.Point{Place: "LF", Measure: kind.BoilMargin, Start: -3}, From: -3, StartSD: 2, Ceiling: []float64{40, -5}},
	}}
	entry := &profiles.Fitted{Face: map[string]logbook.Finding{"LF": logbook.Edge}}
	s.inspect(kind.Rotors.Inspect(kind.At{Folder: &profiles.Folder{}, Part: profiles.Part{Tire: &profiles.TirePart{}, Rotors: &profiles.RotorsPart{}}, Place: "LF", Entry: entry}), "LF")
	a, b, c, d := s.Levels[0], s.Levels[1], s.Levels[2], s.Levels[3]
	if a.Start != 0 || !a.held || a.most != 0 || b.held {
		t.Errorf("failed: %+v", a)
	}
	if b.Start != 24 || b.StartSD != 0.1 || c.Start != 0.7 || c.StartSD != 0.1 {
		t.Errorf("what was not found: %+v, %+v", b, c)
	}
	if d.Start != -3 || d.StartSD != 2 || d.Ceiling[0] != 0 || d.Ceiling[1] != -5 {
		t.Errorf("below its limit already: %+v", d)
	}
}
