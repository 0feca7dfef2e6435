package lists

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// TestHubToWatch: the hub likeliest to fail is shaken first, of two alike the
// one that comes first, and the leg that takes most of its life is named, be it
// the first of the trip.
func TestHubToWatch(t *testing.T) {
	hub := func(place string, out float64, most int) plan.Set {
		return plan.Set{ID: "hub-" + place, Kind: profiles.Bearing, Most: most, Points: []plan.Point{{Place: place}}, Decision: plan.Decision{Action: plan.Run, POut: out}}
	}
	legs := []plan.Leg{{Name: "the ring", Kind: profiles.CircuitLeg}, {Name: "the oval", Kind: profiles.CircuitLeg}}
	for _, c := range []struct {
		sets []plan.Set
		want string
	}{
		{[]plan.Set{hub("LF", 0.02, 1), hub("RF", 0.03, 0), hub("LR", 0.03, 1)}, "RF above all: 3 % chance to fail on this trip; most of its life goes on the ring"},
		{[]plan.Set{hub("LF", 0.02, 1), hub("RF", 0.01, 0)}, "LF above all: 2 % chance to fail on this trip; most of its life goes on the oval"},
		{[]plan.Set{hub("LR", 0.02, -1)}, "LR above all: 2 % chance to fail on this trip; it is the likeliest to fail"},
	} {
		l := &checklist{p: &plan.Plan{Legs: legs, Sets: c.sets}, f: &profiles.Folder{}}
		l.session()
		if got := l.out[0].What; !strings.HasSuffix(got, c.want) {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// TestOilAtFuelStops: what is to be added is shared out over the fuel stops;
// without any stop, or with nothing to add, the level alone is looked at.
func TestOilAtFuelStops(t *testing.T) {
	for _, c := range []struct {
		topUp float64
		stops []int
		want  string
	}{
		{1.5e-3, []int{2, 0, 1}, "oil level: expect to add about 1.5 L in all, 0.5 L a fuel stop"},
		{1.5e-3, []int{0}, "oil level"}, {0, []int{2}, "oil level"},
	} {
		l := &checklist{p: &plan.Plan{TopUp: c.topUp}}
		for _, n := range c.stops {
			l.p.Legs = append(l.p.Legs, plan.Leg{Kind: profiles.RoadLeg, Refuels: n})
		}
		l.fuel()
		if got := l.p.Say(l.out[len(l.out)-1], quantity.Metric); got != c.want {
			t.Errorf("%g L over %v: %q, want %q", 1000*c.topUp, c.stops, got, c.want)
		}
	}
}

// TestTreadAtFuelStops: the tread is read where the car stops for fuel on a road
// and back home, not where it does not, at the point that comes nearest to its
// limit; of two alike the first.
func TestTreadAtFuelStops(t *testing.T) {
	at := func(place string, start float64) plan.Point {
		return plan.Point{Place: place, Zone: "outside", Measure: kind.Tread, New: 8e-3, Start: start, Limit: 2e-3, Margin: 3e-3, Loss: []float64{1e-3, 1e-3, 0, 1e-3}}
	}
	l := &checklist{f: &profiles.Folder{}, p: &plan.Plan{
		Sets: []plan.Set{{ID: "tires-front", Name: "front tires", Kind: profiles.Tire, Points: []plan.Point{at("LF", 7e-3), at("RF", 6e-3), at("RF too", 6e-3)}}},
		Legs: []plan.Leg{
			{Kind: profiles.RoadLeg, Meters: 3, Refuels: 1, RefuelAt: []float64{1}}, {Kind: profiles.CircuitLeg, Refuels: 1},
			{Kind: profiles.RoadLeg}, {Kind: profiles.RoadLeg, Meters: 3, Refuels: 2, RefuelAt: []float64{1, 2}},
		},
	}}
	l.fuel()
	c := l.out[0]
	if !strings.HasSuffix(c.What, "depth at RF outside") || c.Act != 3e-3 || c.Stop != 2e-3 {
		t.Errorf("%+v", c)
	}
	want := []plan.Reading{{Leg: 0, Level: 6e-3}, {Leg: 3, Level: 4e-3}, {Leg: 4, Level: 3e-3}}
	if diff := cmp.Diff(want, c.Expect, cmpopts.EquateApprox(0, 1e-12)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestNearestToItsLimit: of a worn and a new kind of part on one axle the one
// that has the least of its own life left is read.
func TestNearestToItsLimit(t *testing.T) {
	at := func(place string, unused, limit, start float64) plan.Point {
		return plan.Point{Place: place, Measure: kind.PadLining, New: unused, Limit: limit, Start: start}
	}
	for _, points := range [][]plan.Point{
		{at("LF", 8, 2, 4), at("RF", 20, 6, 9)},  // 2 of 6, 3 of 14
		{at("LF", 8, 4, 5.2), at("RF", 8, 1, 3)}, // 1.2 of 4, 2 of 7
	} {
		if p, way := closest(plan.Set{Points: points}, kind.PadLining); p.Place != "RF" || way[0] != p.Start {
			t.Errorf("%+v: %s is read", points, p.Place)
		}
	}
}
