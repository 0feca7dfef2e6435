package planner_test

import (
	"testing"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/randomcar"
)

// TestAround: the middle run is the plan's own trip, runs lie a step apart and stop
// at what can be driven, and a faster pace takes more of every tread and pad.
func TestAround(t *testing.T) {
	folder, trip := randomcar.Demo(t, "juniper")
	p, err := planner.Make(folder, trip, planner.Options{Draws: 100, Prior: true})
	if err != nil {
		t.Fatal(err)
	}
	planner.Around(p, folder, trip)
	pace := p.Varied.Pace
	if len(pace.Runs) != 11 || pace.Below != 5 {
		t.Fatalf("%d runs, %d below the plan's", len(pace.Runs), pace.Below)
	}
	for i, s := range p.Sets {
		for k, pt := range s.Points {
			for j := range p.Legs {
				if got, want := pace.Runs[5].Points[i][k].Loss[j], pt.Loss[j]; got < want*(1-1e-12) || got > want*(1+1e-12) {
					t.Errorf("%s %s, leg %d: %v in the middle run, %v in the plan", s.ID, pt.Where(), j+1, got, want)
				}
			}
		}
	}
	last := 0.0
	for i, r := range pace.Runs {
		if want := 0.55 + 0.05*float64(i); r.Legs[1].Pace > want+1e-9 || r.Legs[1].Pace < want-1e-9 {
			t.Errorf("run %d at %v, want %v", i, r.Legs[1].Pace, want)
		}
		if tread := r.Points[0][0].Loss[1]; tread <= last {
			t.Errorf("run %d takes %v of the tread, the slower one %v", i, tread, last)
		} else {
			last = tread
		}
	}
	for j, l := range p.Legs {
		for k, pt := range p.Sets[0].Points { // of the front tires, wear lies as the left share does
			right, left := p.Varied.Right.Points[0][k].Loss[j], p.Varied.Left.Points[0][k].Loss[j]
			want := pt.Loss[j]
			if got := right + l.LeftShare*(left-right); l.BySummary && (got < want*(1-1e-9) || got > want*(1+1e-9)) {
				t.Errorf("%s, leg %d: %v between the sides, %v in the plan", pt.Where(), j+1, got, want)
			}
		}
	}
}
