package learning_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/learning"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// alarmDraws are few enough for many plans.
const alarmDraws = 1000

// The trips of the bench, as the owners wrote them down.
var driven = map[string]string{
	"errand":  "{road: a road, distance: 400 mi}",
	"journey": "{road: a road, distance: 1400 mi}",
	"day":     "{road: a road, distance: 120 mi}, {circuit: heron-flats, days: 1, sessions: 5 x 20 min, pace: intermediate, ambient: 24 C}, {road: a road, distance: 120 mi}",
	"weekend": "{road: a road, distance: 500 mi}, {circuit: heron-flats, days: 2, sessions: 5 x 20 min, pace: intermediate, ambient: 24 C}, {road: a road, distance: 500 mi}",
	"quarry":  "{road: a road, distance: 300 mi}, {circuit: quarry-ridge, days: 1, sessions: 5 x 20 min, pace: intermediate, ambient: 24 C}, {road: a road, distance: 300 mi}",
}

// fresh is when the owners' first parts went on. The bench's days are moved to
// after what the demo's car.yaml says.
var fresh = time.Date(2027, 5, 10, 0, 0, 0, 0, time.UTC)

// folder is a simulated owner's car folder.
func folder(t *testing.T, o learning.Simulated) *profiles.Folder {
	t.Helper()
	files := randomcar.Files(t, "juniper", "car.yaml", "parts.yaml", "circuits/heron-flats.yaml", "circuits/quarry-ridge.yaml")
	for id, legs := range driven {
		files["trips/"+id+".yaml"] = &fstest.MapFile{Data: fmt.Appendf(nil, "trip: %s\ndepart: 2028-06-01\nlegs: [%s]\n", id, legs)}
	}
	var b strings.Builder
	b.WriteString(strings.Join(logbook.Columns, ",") + "\n")
	row := func(day time.Time, meters float64, what logbook.What, place, zone, value string) {
		fmt.Fprintf(&b, "%s,%.3f km,%s,%s,%s,%s,yes,\n", day.Format(time.DateOnly), meters/1000, what, place, zone, value)
	}
	for _, at := range []string{"front", "rear"} {
		row(fresh, o.Start, logbook.Replaced, at, "", "tires-"+at)
		row(fresh, o.Start, logbook.Replaced, at, "", "pads-"+at)
	}
	moved := fresh.Sub(time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC))
	for _, e := range o.Log {
		value := e.Text
		if value == "" {
			value = fmt.Sprintf("%.4f mm", 1000*max(0, e.Value)) // no gauge goes below
		}
		row(e.Date.Add(moved), float64(e.Odometer), e.What, e.Place, e.Zone, value)
	}
	files[profiles.LogFile] = &fstest.MapFile{Data: []byte(b.String())}
	f, err := profiles.Load(files)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// TestFalseAlarms: the share of weekends that are refused has risen by no more
// than the share that truly takes a tire or a pad past its limit.
func TestFalseAlarms(t *testing.T) {
	n := learning.ManyOwners(t, alarmOwners/8)
	var crossed, wrongRuns, refused, lastsNo, falseNo, falseYes float64
	learning.EachOwner(t, n, func(o learning.Simulated) {
		f := folder(t, o)
		weekend := f.Trips["weekend"]
		p, err := planner.Make(f, weekend, planner.Options{Draws: alarmDraws})
		if err != nil {
			t.Error(err)
			return
		}
		runs := false // a set that was left on and crosses
		for _, s := range p.Sets {
			runs = runs || o.Crossed[s.ID] && s.Decision.Action == plan.Run
		}
		l, err := planner.Lasts(f, weekend, planner.Ask{}, planner.Options{Draws: alarmDraws})
		if err != nil {
			t.Error(err)
			return
		}
		yes := true // of the tires and pads, whose truth is known
		for _, s := range l.Sets {
			if s.Kind == profiles.Tire || s.Kind == profiles.Pads {
				yes = yes && s.Lasts
			}
		}
		for share, is := range map[*float64]bool{
			&crossed: len(o.Crossed) > 0, &wrongRuns: runs, &refused: !p.Safe, &lastsNo: !yes,
			&falseNo: !yes && len(o.Crossed) == 0, &falseYes: yes && len(o.Crossed) > 0,
		} {
			if is {
				*share += 1 / float64(n)
			}
		}
	})
	t.Logf("of %d weekends, %%: %.1f take tires or pads past a limit as the car stands; plan refuses %.1f, and %.1f run on a set that crosses; lasts says no to %.1f, wrongly to %.1f, and yes wrongly to %.1f",
		n, 100*crossed, 100*refused, 100*wrongRuns, 100*lastsNo, 100*falseNo, 100*falseYes)
	slack := 3 * math.Sqrt(0.25/float64(n)) // three standard errors of a share at most
	if n == alarmOwners {
		slack = 0
	}
	if refused > refusedBefore+crossed+slack || lastsNo > lastsNoBefore+crossed+slack {
		t.Errorf("plan refuses %.3f, lasts %.3f; before it was %.3f and %.3f, and %.3f truly cross", refused, lastsNo, refusedBefore, lastsNoBefore, crossed)
	}
}

// What was refused of so many owners while outliers were dropped and checks
// took credit wherever they were made. Of 500 now: 29.0 % cross, plan refuses
// 0.2 %, lasts 48.4 %.
const alarmOwners, refusedBefore, lastsNoBefore = 160, 0.0, 0.444
