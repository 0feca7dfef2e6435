package planner

import (
	"strings"
	"testing"

	"example.com/tripwear/profiles"
)

// TestHubToWatch: the hub likeliest to fail is shaken first, of two alike the
// one that comes first, and the leg that takes most of its life is named, be it
// the first of the trip.
func TestHubToWatch(t *testing.T) {
	hub := func(place string, out float64, most int) Set {
		return Set{ID: "hub-" + place, Kind: profiles.Bearing, Most: most, Points: []Point{{Place: place}}, Decision: Decision{Action: Run, POut: out}}
	}
	legs := []Leg{{Name: "the ring", Kind: profiles.CircuitLeg}, {Name: "the oval", Kind: profiles.CircuitLeg}}
	for _, c := range []struct {
		sets []Set
		want string
	}{
		{[]Set{hub("LF", 0.02, 1), hub("RF", 0.03, 0), hub("LR", 0.03, 1)}, "RF above all: 3 % chance to fail on this trip; most of its life goes on the ring"},
		{[]Set{hub("LF", 0.02, 1), hub("RF", 0.01, 0)}, "LF above all: 2 % chance to fail on this trip; most of its life goes on the oval"},
		{[]Set{hub("LR", 0.02, -1)}, "LR above all: 2 % chance to fail on this trip; it is the likeliest to fail"},
	} {
		l := &checklist{p: &Plan{Legs: legs, Sets: c.sets}}
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
		l := &checklist{p: &Plan{TopUp: c.topUp}}
		for _, n := range c.stops {
			l.p.Legs = append(l.p.Legs, Leg{Kind: profiles.RoadLeg, Refuels: n})
		}
		l.fuel()
		if got := l.out[len(l.out)-1].What; got != c.want {
			t.Errorf("%g L over %v: %q, want %q", 1000*c.topUp, c.stops, got, c.want)
		}
	}
}
