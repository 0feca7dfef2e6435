package circuits

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/duty"
)

func describe(t testing.TB, f *profiles.Folder, id string, d Drive) *plan.Circuit {
	t.Helper()
	c, err := Describe(f, id, d)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// The corners and heavy brakings of the demo's own circuit, as its file has them.
func TestDescribeCorners(t *testing.T) {
	f, _ := demo(t, "juniper")
	c := describe(t, f, "heron-flats", Drive{Pace: "intermediate"})
	if c.Known != plan.ByCorners || c.Direction != "anticlockwise" || math.Abs(c.Meters-3500) > 1 {
		t.Errorf("known by %s, %s, %.0f m", c.Known, c.Direction, c.Meters)
	}
	corners := f.Circuits["heron-flats"].Corners
	if len(c.Turns) != len(corners) {
		t.Fatalf("%d turns, want %d", len(c.Turns), len(corners))
	}
	at := 0.0
	for i, turn := range c.Turns {
		w := corners[i]
		at += float64(w.Straight)
		if math.Abs(turn.At-at) > 1e-6 || turn.Left != (w.Turn > 0) || math.Abs(turn.Angle-math.Abs(float64(w.Turn))) > 1e-9 || turn.Radius != float64(w.Radius) {
			t.Errorf("turn %d: %+v, want %+v at %.1f m", i+1, turn, w, at)
		}
		// Each is taken at the grip limit of the pace: v^2 = 0.80 g R.
		if v := math.Sqrt(0.80 * 9.80665 * float64(w.Radius)); math.Abs(turn.Apex/v-1) > 0.02 {
			t.Errorf("turn %d: apex %.2f m/s, want %.2f", i+1, turn.Apex, v)
		}
		at += math.Abs(float64(w.Turn)) * float64(w.Radius)
	}
	if len(c.Brakings) != c.HeavyBrakings || c.HeavyBrakings < 7 {
		t.Errorf("%d heavy brakings, %d listed", c.HeavyBrakings, len(c.Brakings))
	}
	for i, b := range c.Brakings {
		if i > 0 && b.At <= c.Brakings[i-1].At || b.To >= b.From || b.Energy <= 0 || b.At > c.Meters {
			t.Errorf("braking %d: %+v", i+1, b)
		}
	}
	if math.Abs(c.Braking+c.OnPower-1) > 1e-9 || c.Cornering < 0.2 || c.Cornering > 0.5 {
		t.Errorf("braking %.2f, on power %.2f, cornering %.2f", c.Braking, c.OnPower, c.Cornering)
	}
	weight, slip, hub := 0.0, 0.0, 0.0
	for _, p := range c.Places {
		weight, slip, hub = weight+p.Mean, slip+p.Slip, hub+p.Hub
	}
	// The four wheels carry the car, whatever it does (statics).
	if math.Abs(weight/(1385*9.80665)-1) > 1e-3 || math.Abs(slip-1) > 1e-9 || math.Abs(hub-1) > 1e-9 {
		t.Errorf("mean loads %.0f N, shares %.3f and %.3f", weight, slip, hub)
	}
}

// The reference lap against itself is one.
func TestReferenceAgainstItself(t *testing.T) {
	f, _ := demo(t, "juniper")
	f.Circuits["reference"] = profiles.Circuit{ID: "reference", Name: "reference", Corners: f.Reference}
	c := describe(t, f, "reference", Drive{Pace: "80%"})
	for _, r := range []float64{c.Against.Brakes, c.Against.Tread, c.Against.Lateral, c.Against.Hub} {
		if math.Abs(r-1) > 1e-9 {
			t.Errorf("ratios %+v, want 1", c.Against)
		}
	}
}

// Wear by the lap and the hour is the plan's for the same day.
func TestWearIsThePlans(t *testing.T) {
	f, trip := demo(t, "juniper")
	leg := days("heron-flats", 1, "intermediate")
	leg.Ambient = f.Model.Session.Ambient
	trip.Legs = []profiles.Leg{leg}
	p, err := planner.Make(f, trip, planner.Options{Draws: 2000})
	if err != nil {
		t.Fatal(err)
	}
	c := describe(t, f, "heron-flats", Drive{Pace: "intermediate"})
	hours := 5 * 1200.0 / 3600
	for _, w := range c.Wear {
		s := p.Sets[slices.IndexFunc(p.Sets, func(s plan.Set) bool { return s.ID == w.ID })]
		worst := 0.0
		for _, pt := range s.Points {
			worst = max(worst, pt.Loss[0]/(pt.New-pt.Limit))
		}
		if math.Abs(w.Share*hours/worst-1) > 1e-9 {
			t.Errorf("%s: %g of its life an hour, the plan has %g", w.Name, w.Share, worst/hours)
		}
		if math.Abs(w.PerLap*float64(p.Legs[0].Laps)/(w.PerHour*hours)-1) > 1e-9 {
			t.Errorf("%s: %g a lap and %g an hour", w.Name, w.PerLap, w.PerHour)
		}
	}
	if len(c.Wear) != len(p.Sets)-1 { // all but the brake fluid
		t.Errorf("%d sets, the plan has %d", len(c.Wear), len(p.Sets))
	}
}

// A recorded track of the circuit says the same as its corner list.
func TestTrackAgainstCorners(t *testing.T) {
	f := randomcar.WithTrack(t, "../../testdata")
	c, track := describe(t, f, "heron-flats", Drive{Pace: "intermediate"}), describe(t, f, "Heron by track", Drive{})
	if track.Known != plan.ByTrack || track.Track == nil || len(track.Track.Laps) < 5 || !track.View.North {
		t.Fatalf("track %+v", track.Track)
	}
	if math.Abs(track.LeftShare-c.LeftShare) > 0.02 || math.Abs(track.LeftShare-c.LeftShare) > 3*track.ShareSD {
		t.Errorf("left share %.3f +- %.3f, by corners %.3f", track.LeftShare, track.ShareSD, c.LeftShare)
	}
	if math.Abs(track.LapTime/c.LapTime-1) > 0.002 || math.Abs(track.Pace-c.Pace) > 0.02 || track.Direction != c.Direction {
		t.Errorf("lap %.2f s at %.3f, %s; by corners %.2f s at %.3f", track.LapTime, track.Pace, track.Direction, c.LapTime, c.Pace)
	}
	for i, w := range c.Wear {
		if r := track.Wear[i].Share / w.Share; r < 0.9 || r > 1.1 {
			t.Errorf("%s: %.3f times the corner list's", w.Name, r)
		}
	}
	if len(track.Turns) != len(c.Turns) {
		t.Errorf("%d turns, want %d", len(track.Turns), len(c.Turns))
	}
	// Drawn by the track itself, the line is as long as the lap.
	length := 0.0
	for i, p := range track.View.Points {
		q := track.View.Points[(i+1)%len(track.View.Points)]
		length += math.Hypot(q.X-p.X, q.Y-p.Y)
	}
	if math.Abs(length/track.Meters-1) > 0.02 {
		t.Errorf("drawn %.0f m around, the lap is %.0f", length, track.Meters)
	}
}

// Recorded by a car that no pace of this one matches, a track still says its
// length, direction and left share.
func TestTrackOfAnotherCar(t *testing.T) {
	f := randomcar.WithTrack(t, "../../testdata")
	own := describe(t, f, "heron-track", Drive{})
	for _, tt := range []struct{ faster, pace float64 }{{1.5, 1.05}, {0.68, 0.40}} {
		f := randomcar.WithTrack(t, "../../testdata")
		fixes := f.Circuits["heron-track"].Trace.Fixes
		for i := range fixes {
			fixes[i].Time /= tt.faster
		}
		c := describe(t, f, "heron-track", Drive{})
		if !c.Track.Held || c.Pace != tt.pace {
			t.Errorf("%g times as fast: pace %.3f, held %v", tt.faster, c.Pace, c.Track.Held)
		}
		if c.Direction != own.Direction || math.Abs(c.Meters/own.Meters-1) > 0.005 || math.Abs(c.LeftShare-own.LeftShare) > 2*own.ShareSD+2*c.ShareSD {
			t.Errorf("%g times as fast: %s, %.0f m, left share %.4f; was %s, %.0f, %.4f", tt.faster, c.Direction, c.Meters, c.LeftShare, own.Direction, own.Meters, own.LeftShare)
		}
	}
	if own.Track.Held {
		t.Error("held on the car's own track")
	}
}

// What --save writes is a circuit that drives alike.
func TestSavedCircuit(t *testing.T) {
	f := randomcar.WithTrack(t, "../../testdata")
	track := describe(t, f, "heron-track", Drive{})
	text, err := File(track, "", 0)
	if err != nil {
		t.Fatal(err)
	}
	var laps int
	var share, sd float64 // in %
	if _, err := fmt.Sscanf(text, "# Corner by corner, from the recorded track: %d hot laps, left share %f +- %f %%", &laps, &share, &sd); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	if laps != len(track.Track.Laps) || math.Abs(share-75) > 2 || sd < 0.1 || sd > 3 {
		t.Errorf("%d laps, left share %.1f +- %.1f %%", laps, share, sd)
	}
	files := randomcar.Files(t, "juniper", "car.yaml", "parts.yaml")
	files["circuits/saved.yaml"] = &fstest.MapFile{Data: []byte(text)}
	again, err := profiles.Load(files)
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	saved := describe(t, again, "saved", Drive{})
	// The recording gives its share at measured speeds, the saved corners at those of a lap driven anew.
	if math.Abs(saved.LeftShare-track.LeftShare) > track.ShareSD || math.Abs(saved.LapTime-track.LapTime) > 0.06 || math.Abs(saved.Meters-track.Meters) > 0.5 || saved.Name != track.Name {
		t.Errorf("saved %q: left share %.4f, lap %.2f s, %.1f m; was %q, %.4f, %.2f, %.1f", saved.Name, saved.LeftShare, saved.LapTime, saved.Meters, track.Name, track.LeftShare, track.LapTime, track.Meters)
	}
	if _, err := File(describe(t, f, "quarry-ridge", Drive{}), "", 0); err == nil || !strings.Contains(err.Error(), "summary alone") {
		t.Errorf("a summary was written: %v", err)
	}
}

// A corner that follows on another has no straight, a straight no turn, and
// 75.26 s read 1:15.3.
func TestCircuitFile(t *testing.T) {
	c := plan.Circuit{Name: "Two ends", Known: plan.ByCorners, LapTime: 75.26, Harder: 1, Segs: []duty.Segment{
		{Straight: 100, Turn: math.Pi / 2, Radius: 40}, {Turn: -math.Pi, Radius: 20}, {Straight: 7.5},
	}}
	const want = "# Corner by corner, from the corner list.\nname: \"Two ends\"\nlap_time: 1:15.3\ncorners:\n" +
		"  - {straight: 100.00 m, turn: 90.000 deg left, radius: 40.00 m}\n" +
		"  - {turn: 180.000 deg right, radius: 20.00 m}\n" +
		"  - {straight: 7.50 m}\n"
	if got, err := File(&c, "", 0); err != nil || got != want {
		t.Errorf("%v, got\n%swant\n%s", err, got, want)
	}
	c.Known, c.Harder = plan.ByTrack, 1.134
	if got, err := File(&c, "", 0); err != nil || !strings.Contains(got, "\nlap_time: 1:15.3\n# The recording's line takes the edge off the sharpest bends.\nbraking: 113.4 %\ncorners:\n") {
		t.Errorf("%v, got\n%swant a braking of 113.4 %%", err, got)
	}
	// Of a map the lap time is the owner's, not the one that the model drove.
	c.Map = &plan.Map{}
	for lapTime, want := range map[float64]string{0: "", 119.96: "lap_time: 2:00.0\n"} {
		if got, err := File(&c, "maps/two.csv", lapTime); err != nil || !strings.HasSuffix(got, "track: maps/two.csv\n"+want) {
			t.Errorf("%v, lap of %g s: got\n%s", err, lapTime, got)
		}
	}
}

// A circuit whose file has more braking than its corners take wears the brakes
// more and is driven as before.
func TestBrakingOfAFile(t *testing.T) {
	f, _ := demo(t, "juniper")
	drive := Drive{Pace: "intermediate"}
	plain := describe(t, f, "heron-flats", drive)
	f.Circuits = maps.Clone(f.Circuits)
	c := f.Circuits["heron-flats"]
	c.Braking = 1.2
	f.Circuits["heron-flats"] = c
	more := describe(t, f, "heron-flats", drive)
	if more.LapTime != plain.LapTime || more.LeftShare != plain.LeftShare || math.Abs(more.Against.Brakes/plain.Against.Brakes-1.2) > 1e-9 {
		t.Errorf("lap %g s, share %g, brakes x%g; was %g, %g, x%g", more.LapTime, more.LeftShare, more.Against.Brakes, plain.LapTime, plain.LeftShare, plain.Against.Brakes)
	}
	for i, b := range more.Brakings {
		if math.Abs(b.Energy/plain.Brakings[i].Energy-1.2) > 1e-9 {
			t.Errorf("braking %d takes %g J, was %g", i+1, b.Energy, plain.Brakings[i].Energy)
		}
	}
	for i, w := range more.Wear {
		ratio := w.Share / plain.Wear[i].Share
		if w.Kind == profiles.Pads && ratio < 1.2 || w.Kind == profiles.Tire && math.Abs(ratio-1) > 1e-9 {
			t.Errorf("%s wears %g times as fast", w.Name, ratio)
		}
	}
}

// The most loaded corner of the car first: the left-turning circuit takes more
// from a right-hand hub, the right-turning one from a left-hand hub.
func TestRank(t *testing.T) {
	f, _ := demo(t, "juniper")
	for what, first := range map[string]string{"hub-RF": "Heron Flats", "hub-LF": "Quarry Ridge", "left rear hub": "Quarry Ridge", "RR": "Heron Flats"} {
		r, err := Rank(f, what, Drive{Pace: "intermediate"})
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Circuits) != 2 || r.Circuits[0].Name != first || r.Circuits[0].PerHour <= r.Circuits[1].PerHour {
			t.Errorf("%s: %+v, want %s first", what, r.Circuits, first)
		}
		for _, c := range r.Circuits {
			if what == "hub-RF" {
				for _, w := range describe(t, f, c.ID, Drive{Pace: "intermediate"}).Wear {
					if w.ID == what && math.Abs(w.Share/c.PerHour-1) > 1e-9 {
						t.Errorf("%s takes %g from %s, ranked by %g", c.Name, w.Share, what, c.PerHour)
					}
				}
			}
		}
	}
	// Many circuits are ranked as each would be alone, in the order of their shares.
	many := manyCircuits(t, 12)
	r, err := Rank(many, "hub-RF", Drive{})
	if err != nil || len(r.Circuits) != 12 || len(r.Left) != 0 {
		t.Fatalf("%d of 12 circuits, left %q, %v", len(r.Circuits), r.Left, err)
	}
	for i, c := range r.Circuits {
		if i > 0 && c.PerHour > r.Circuits[i-1].PerHour {
			t.Errorf("%s, %.6f, comes after %.6f", c.ID, c.PerHour, r.Circuits[i-1].PerHour)
		}
		for _, w := range describe(t, many, c.ID, Drive{}).Wear {
			if w.ID == "hub-RF" && math.Abs(w.Share/c.PerHour-1) > 1e-9 {
				t.Errorf("%s takes %g, ranked by %g", c.ID, w.Share, c.PerHour)
			}
		}
	}
	if _, err := Rank(f, "wheel nuts", Drive{}); err == nil {
		t.Error("wheel nuts are ranked")
	}
	f.Circuits = nil
	if _, err := Rank(f, "hub-LF", Drive{}); err == nil {
		t.Error("nothing is ranked")
	}
}

// A circuit takes from a set what it takes at the worst of its points, as a
// share of what there is between new and the limit: 1 of 5 mm in 2 h is 10 % an
// hour, and 0.25 of 5 at another place 2.5 %.
func TestTakes(t *testing.T) {
	at := func(place string, loss float64) projection.Level {
		return projection.Level{Point: plan.Point{Place: place, New: 8, Limit: 3, Loss: []float64{loss}}}
	}
	pads := &projection.Set{Set: plan.Set{Name: "pads"}, Levels: []projection.Level{at("LF", 1), at("RF", 0.25)}}
	oil := &projection.Set{Set: plan.Set{Name: "oil"}, Levels: []projection.Level{at("engine", 4)}, PerLeg: true}
	for place, want := range map[string]struct {
		sum  float64
		most string
	}{"": {0.1, "pads, LF"}, "RF": {0.025, "pads, RF"}, "LR": {0, ""}} {
		if sum, most := takes([]*projection.Set{pads, oil}, place, 2); math.Abs(sum-want.sum) > 1e-12 || most != want.most {
			t.Errorf("%q: %.4f at %q, want %.4f at %q", place, sum, most, want.sum, want.most)
		}
	}
}

// A lap that takes nothing from the tires has no shares to give.
func TestNothingToShare(t *testing.T) {
	f, _ := demo(t, "juniper")
	m := trip.NewMachine(f)
	for p := range m.Tires {
		m.Tires[p].HotFactor = 0
	}
	d, err := trip.CircuitDuty(m, f, days("heron-flats", 1, "intermediate"), 0)
	if err != nil {
		t.Fatal(err)
	}
	var c plan.Circuit
	circuitLoad(&c, m, d)
	for _, p := range c.Places {
		if p.Slip != 0 || p.Hub != 0 {
			t.Errorf("%s: %g of the tread wear, %g of the hubs'", p.Place, p.Slip, p.Hub)
		}
	}
}
