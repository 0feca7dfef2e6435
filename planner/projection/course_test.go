package projection

import (
	"math"
	"testing"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

// certain is a set without any spread, new at 10, with its margin at 3 and its
// limit at 2, and what each leg takes of it.
func certain(k *kind.Kind, from float64, loss ...float64) *Set {
	s := &Set{Set: plan.Set{ID: "certain", Kind: k.ID, Critical: true}, Spec: k, Lifetime: k.Lifetime, failedNow: true}
	s.Credits = profiles.Caught{Tread: 0.95, Pads: 0.9, Look: 0.75, RotorCrack: 0.65, Hub: 0.5}
	p := Level{Point: plan.Point{New: 10, Start: from, Limit: 2, Margin: 3, Loss: loss}, From: from}
	if k.Lifetime {
		p.Margin = p.Limit
	}
	for _, l := range loss {
		p.LegLoss = append(p.LegLoss, trip.Loss{l, l, l})
	}
	s.Levels = []Level{p}
	return s.AddReplacement()
}

// Legs of a trip by hand: roads of 100 with fuel stops, circuit days of sessions.
func roadOf(stops ...float64) plan.Leg {
	return plan.Leg{Kind: profiles.RoadLeg, Meters: 100, RefuelAt: stops, Refuels: len(stops)}
}

func dayOf(sessions int) plan.Leg { return plan.Leg{Kind: profiles.CircuitLeg, Sessions: sessions} }

func usagesOf(legs []plan.Leg) []trip.Usage {
	var out []trip.Usage
	for _, l := range legs {
		out = append(out, trip.Usage{Circuit: l.Kind == profiles.CircuitLeg})
	}
	return out
}

// TestCaughtByHand: a check counts where it lies after the margin was passed and
// before the limit is crossed, and only then; of several the best one, once.
func TestCaughtByHand(t *testing.T) {
	for _, c := range []struct {
		what    string
		kind    *kind.Kind
		watched bool
		from    float64
		loss    []float64
		legs    []plan.Leg
		want    float64 // goes unnoticed
	}{
		{"one long road from home to the limit, pads", kind.Pads, true, 6, []float64{5}, []plan.Leg{roadOf(75)}, 1},
		{"past the margin at home already, then the same", kind.Pads, true, 2.9, []float64{5}, []plan.Leg{roadOf(75)}, 1},
		{"tires are gauged at its fuel stop, past the margin", kind.Tire, false, 6, []float64{5}, []plan.Leg{roadOf(75)}, 0.05},
		{"a fuel stop before the margin shows nothing", kind.Tire, false, 6, []float64{5}, []plan.Leg{roadOf(50)}, 1},
		{"one after the limit comes too late", kind.Tire, false, 6, []float64{5}, []plan.Leg{roadOf(90)}, 1},
		{"at the margin to the dot", kind.Tire, false, 6, []float64{4}, []plan.Leg{roadOf(75)}, 0.05},
		{"never crossed", kind.Tire, false, 6, []float64{3.9}, []plan.Leg{roadOf(75)}, 0},
		{"two sessions of five lie between, watched", kind.Pads, true, 4, []float64{0, 2.5}, []plan.Leg{roadOf(), dayOf(5)}, 0.1},
		{"not watched, they are looked at", kind.Pads, false, 4, []float64{0, 2.5}, []plan.Leg{roadOf(), dayOf(5)}, 0.25},
		{"a day of one session leaves no check between", kind.Pads, true, 4, []float64{0, 2.5}, []plan.Leg{roadOf(), dayOf(1)}, 1},
		{"in the evening, before the road home", kind.Pads, false, 4, []float64{0, 1.5, 1}, []plan.Leg{roadOf(), dayOf(1), roadOf()}, 0.1},
		{"rotors by a look in the evening", kind.Rotors, false, 4, []float64{0, 1.5, 1}, []plan.Leg{roadOf(), dayOf(1), roadOf()}, 0.35},
		{"a hub that fails on the first road", kind.Bearing, true, 4, []float64{3, 1}, []plan.Leg{roadOf(50), dayOf(5)}, 1},
		{"on the first circuit day, shaken before it", kind.Bearing, false, 4, []float64{1, 2}, []plan.Leg{roadOf(50), dayOf(5)}, 0.5},
		{"on the first leg, a circuit: only sessions of that day lie before", kind.Bearing, false, 4, []float64{3}, []plan.Leg{dayOf(5)}, 1},
		{"on the road home", kind.Bearing, false, 4, []float64{0, 1, 2}, []plan.Leg{roadOf(50), dayOf(5), roadOf()}, 0.5},
	} {
		s := certain(c.kind, c.from, c.loss...)
		got := NewWorker(NewDraws(4, 1), usagesOf(c.legs)).Follow(s, 0, nil).Uncaught(s.Checks(c.legs, c.watched))
		if last := got[len(got)-1]; math.Abs(last-c.want) > 1e-12 {
			t.Errorf("%s: %g goes unnoticed, by hand %g", c.what, last, c.want)
		}
	}
}

// TestNoMargin: what has no margin, such as a rotor's thickness, shows nothing
// before its limit, whatever else is looked at.
func TestNoMargin(t *testing.T) {
	legs := []plan.Leg{roadOf(), dayOf(5)}
	s := certain(kind.Rotors, 4, 0, 2.5)
	s.Levels[0].Margin = s.Levels[0].Limit
	if got := NewWorker(NewDraws(4, 1), usagesOf(legs)).Follow(s, 0, nil).Uncaught(s.Checks(legs, true)); got[1] != 1 {
		t.Errorf("%g goes unnoticed", got[1])
	}
}

// TestSpareByHand: pads at 6 lose 1, 2, 2, 1; a session of the first day of four
// takes 0.5. The spare of 10 goes on before the session that would end below 3,
// or by its latest leg, and wears on from there.
func TestSpareByHand(t *testing.T) {
	legs := []plan.Leg{roadOf(), dayOf(4), dayOf(4), roadOf()}
	for _, c := range []struct {
		what         string
		from         float64
		loss         []float64
		latest       int
		fitted       float64
		thrown, left float64 // share of life: that came off, at the end
		out, crossed float64
	}{
		{"at 3.5 before the last session of day 1", 6, []float64{1, 2, 2, 1}, -1, 1, 1.5 / 8, (10 - 0.5 - 2 - 1 - 2) / 8, 0, 0},
		{"before day 2 at the latest, at 4.5", 7, []float64{1, 1.5, 1, 1}, 2, 1, 2.5 / 8, (10 - 1 - 1 - 2) / 8.0, 0, 0},
		{"never", 10, []float64{1, 2, 2, 1}, -1, 0, 0, 2.0 / 8, 0, 0},
		{"the road home alone takes it to the margin: on the evening before", 7, []float64{1, 1, 1, 1.5}, -1, 1, 2.0 / 8, (10 - 1.5 - 2) / 8, 0, 0},
		{"across the limit on the way there", 3, []float64{1.5, 2, 2, 1}, -1, 0, 0, -5.5 / 8, 1, 1},
		{"the spare wears out as well", 4, []float64{0, 6, 6, 1}, -1, 1, 2.0 / 8, -5.0 / 8, 1, 1},
	} {
		s := certain(kind.Pads, c.from, c.loss...)
		w := NewWorker(NewDraws(4, 1), usagesOf(legs))
		checks := s.Checks(legs, true)
		got := w.Follow(s, 0, &Spare{Checks: checks, Latest: c.latest})
		outs, crosses, unsafes := got.Ends(w.Follow(s, 0, nil), checks)
		out, crossed, unsafe := outs[len(legs)-1], crosses[len(legs)-1], unsafes[len(legs)-1]
		if got.Fitted != c.fitted || math.Abs(got.Thrown-c.thrown) > 1e-12 || math.Abs(got.LifeEnd-c.left) > 1e-12 || out != c.out {
			t.Errorf("%s: %g fitted, %g thrown away, %g left, %g out; by hand %g, %g, %g, %g", c.what, got.Fitted, got.Thrown, got.LifeEnd, out, c.fitted, c.thrown, c.left, c.out)
		}
		if unsafe > crossed || crossed < c.crossed {
			t.Errorf("%s: %g crossed, %g of it unnoticed", c.what, crossed, unsafe)
		}
	}
}
