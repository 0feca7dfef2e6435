package planner

import (
	"math"
	"testing"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
)

// one plans a single day on a circuit.
func one(t *testing.T, f *profiles.Folder, circuit string, change func(*profiles.Leg)) *plan.Plan {
	t.Helper()
	_, trip := demo(t, "juniper")
	leg := days(circuit, 1, "intermediate")
	change(&leg)
	trip.Legs = []profiles.Leg{leg}
	return planned(t, f, trip)
}

func asItIs(*profiles.Leg) {}

// The other way round, left and right change sides; by a summary exactly, by
// corners as nearly as the lap drives alike backward.
func TestReversedRunning(t *testing.T) {
	f := randomcar.WithTrack(t, "../testdata")
	for circuit, tol := range map[string]float64{"heron-flats": 0.06, "quarry-ridge": 1e-9, "heron-track": 0.06} {
		was := one(t, f, circuit, asItIs)
		is := one(t, f, circuit, func(l *profiles.Leg) { l.Reverse = true })
		if !is.Legs[0].Reverse || math.Abs(was.Legs[0].LeftShare+is.Legs[0].LeftShare-1) > 0.02 {
			t.Errorf("%s: left share %.3f, reversed %.3f", circuit, was.Legs[0].LeftShare, is.Legs[0].LeftShare)
		}
		a, b := lost(setOf(was, t, "hub-RF"), t, "RF", ""), lost(setOf(is, t, "hub-LF"), t, "LF", "")
		within(t, circuit+": RF hub becomes LF hub", b/a, 1-tol, 1+tol)
		if n := len(is.Circuits); circuit != "quarry-ridge" && (n != 1 || !is.Circuits[0].Reverse) {
			t.Errorf("%s: drawn %d times", circuit, n)
		}
	}
	// Both ways on one trip are drawn once each, and the reversed line runs back.
	_, trip := demo(t, "juniper")
	there := days("heron-track", 1, "")
	back := there
	back.Reverse = true
	trip.Legs = []profiles.Leg{there, back}
	p := planned(t, f, trip)
	if len(p.Circuits) != 2 || p.Circuits[0].Reverse || !p.Circuits[1].Reverse {
		t.Fatalf("%d drawings", len(p.Circuits))
	}
	a, b := p.Circuits[0].Points, p.Circuits[1].Points
	for i := 1; i < len(a); i++ {
		if d := math.Hypot(a[i].X-b[len(b)-i].X, a[i].Y-b[len(b)-i].Y); d > 5 {
			t.Fatalf("point %d lies %.1f m from the other way's", i, d)
		}
	}
}

// On a wet circuit: slower by about the root of the grip, no hot rubber, less
// from everything; the rain of the whole leg counts for the tread's depth.
func TestWetRunning(t *testing.T) {
	f, _ := demo(t, "juniper")
	for _, circuit := range []string{"heron-flats", "quarry-ridge"} {
		dry, wet := one(t, f, circuit, asItIs), one(t, f, circuit, func(l *profiles.Leg) { l.Wet = true })
		grip := float64(f.Model.Tire.WetGrip)
		slower := wet.Legs[0].LapTime / dry.Legs[0].LapTime
		if slower < 1.02 || slower > 1/math.Sqrt(grip) {
			t.Errorf("%s: lap %.3f times the dry one; corners alone would make it %.3f", circuit, slower, 1/math.Sqrt(grip))
		}
		if !wet.Legs[0].WetCircuit || wet.Legs[0].Pace != dry.Legs[0].Pace {
			t.Errorf("%s: pace %g, dry %g", circuit, wet.Legs[0].Pace, dry.Legs[0].Pace)
		}
		perLap := func(p *plan.Plan, set, place, zone string) float64 {
			return lost(setOf(p, t, set), t, place, zone) / p.Legs[0].Laps
		}
		// Half for cool rubber, and less again for the grip.
		within(t, circuit+": tread", perLap(wet, "tires-front", "RF", "middle")/perLap(dry, "tires-front", "RF", "middle"), 0.2, 0.5)
		within(t, circuit+": hub", perLap(wet, "hub-RF", "RF", "")/perLap(dry, "hub-RF", "RF", ""), 0.1, 0.6)
		within(t, circuit+": pads", perLap(wet, "pads-front", "LF", "")/perLap(dry, "pads-front", "LF", ""), 0.3, 0.9)
	}
}

// A lap time on the leg is driven to; on a wet circuit it is a wet one, while
// the circuit's own is dry.
func TestLapTimeOfALeg(t *testing.T) {
	f, _ := demo(t, "juniper")
	for _, circuit := range []string{"heron-flats", "quarry-ridge"} {
		for _, wet := range []bool{false, true} {
			p := one(t, f, circuit, func(l *profiles.Leg) { l.Pace, l.LapTime, l.Wet = "", 160, wet })
			if math.Abs(p.Legs[0].LapTime-160) > 0.01 {
				t.Errorf("%s, wet %v: lap %.2f s, want 160", circuit, wet, p.Legs[0].LapTime)
			}
		}
	}
	own := one(t, f, "quarry-ridge", func(l *profiles.Leg) { l.Pace = "" })
	wet := one(t, f, "quarry-ridge", func(l *profiles.Leg) { l.Pace, l.Wet = "", true })
	if math.Abs(own.Legs[0].LapTime-145) > 1e-6 || math.Abs(wet.Legs[0].Pace-own.Legs[0].Pace) > 1e-9 || wet.Legs[0].LapTime <= 150 {
		t.Errorf("own lap %.1f s at %.3f; wet %.1f s at %.3f", own.Legs[0].LapTime, own.Legs[0].Pace, wet.Legs[0].LapTime, wet.Legs[0].Pace)
	}
}

// A cool-down lap costs 1.3 hot laps of the session and is gentle itself.
func TestCoolDown(t *testing.T) {
	f, _ := demo(t, "juniper")
	was := one(t, f, "heron-flats", asItIs)
	is := one(t, f, "heron-flats", func(l *profiles.Leg) { l.CoolDown = 2 })
	if got := was.Legs[0].Laps - is.Legs[0].Laps; math.Abs(got-13) > 1e-9 {
		t.Errorf("%g hot laps fewer, want 2.6 in each of 5 sessions", got)
	}
	within(t, "front pads", lost(setOf(is, t, "pads-front"), t, "LF", "")/lost(setOf(was, t, "pads-front"), t, "LF", ""), 0.3, 0.85)
}

// A track without a lap is told with its circuit's name, a slow recording with
// what to give instead.
func TestTrackWithoutALap(t *testing.T) {
	f := randomcar.WithTrack(t, "../testdata")
	c := f.Circuits["heron-track"]
	tr := *c.Trace
	whole := tr.Fixes
	tr.Fixes = whole[:150]
	c.Trace = &tr
	f.Circuits["heron-track"] = c
	_, trip := demo(t, "juniper")
	trip.Legs = []profiles.Leg{days("heron-track", 1, "")}
	_, err := Make(f, trip, Options{Draws: 100})
	if err == nil || err.Error() != "Heron by track: no lap found: the trace does not come round to the same place in the same direction twice" {
		t.Errorf("error %v", err)
	}
	slow := tr
	slow.Fixes = nil
	for i := 0; i < len(whole); i += 5 {
		slow.Fixes = append(slow.Fixes, whole[i])
	}
	c.Trace = &slow
	f.Circuits["heron-track"] = c
	_, err = Make(f, trip, Options{Draws: 100})
	if err == nil || err.Error() != "Heron by track: the trace has a fix every 5 s, and corners need one a second at least; give the circuit by its corners or by length, left_share and lap_time instead" {
		t.Errorf("error %v", err)
	}
}
