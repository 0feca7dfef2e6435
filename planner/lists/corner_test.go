package lists

import (
	"math"
	"testing"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/duty"
)

// What a trip takes from a corner is summed leg by leg: the tread as the mean
// of its zones, and the zone that loses most is named. Of two that lose alike
// it is the inner one, and where nothing is lost none.
func TestCornersByHand(t *testing.T) {
	var a, b trip.Usage
	a.At[1].Tread[0], b.At[1].Tread[0] = [3]float64{1e-3, 2e-3, 1e-3}, [3]float64{1e-3, 2e-3, 5e-3}
	a.At[1].Tread[1], b.At[1].Tread[1] = [3]float64{2e-3, 1e-3, 1e-3}, [3]float64{1e-3, 2e-3, 1e-3}
	a.At[1].Hub[0], b.At[1].Hub[0] = 0.1, 0.3
	got := Corners([]trip.Usage{a, b})
	for i, want := range []plan.Corner{
		{Place: "LF", Tread: 4e-3, Worst: 6e-3, Zone: "outside", Hub: 0.4},
		{Place: "RF", Tread: 8e-3 / 3, Worst: 3e-3, Zone: "inside"},
		{Place: "LR"}, {Place: "RR"},
	} {
		g := got[i]
		if g.Place != want.Place || g.Zone != want.Zone || math.Abs(g.Tread-want.Tread) > 1e-12 || math.Abs(g.Worst-want.Worst) > 1e-12 || math.Abs(g.Hub-want.Hub) > 1e-12 {
			t.Errorf("%+v, want %+v", g, want)
		}
	}
}

// The corner that suffers most is measured against the car's mean, tread and
// hub alike, and set beside the wheel across: the other side of its axle, or
// the other axle where its two sides lose about the same.
func TestSuffers(t *testing.T) {
	car := func(tread, hub [4]float64) (cs [4]plan.Corner) {
		for i, p := range duty.Places {
			cs[i] = plan.Corner{Place: p.String(), Tread: tread[i], Hub: hub[i]}
		}
		return cs
	}
	ring := func(name string, laps, left float64) plan.Leg {
		return plan.Leg{Kind: profiles.CircuitLeg, Circuit: name, Laps: laps, LeftShare: left}
	}
	for _, c := range []struct {
		what       string
		cs         [4]plan.Corner
		legs       []plan.Leg
		place, why string
	}{
		{"right front", car([4]float64{2, 5, 1, 1}, [4]float64{0.1, 0.4, 0.1, 0.1}), nil,
			"RF", "it takes 2.5x the tread and 4.0x the hub life of LF across the axle"},
		// The means are 2 and 0.2: LF scores 2 + 1, RR 0.5 + 2.
		{"tread outweighs the hub", car([4]float64{4, 2, 1, 1}, [4]float64{0.2, 0.1, 0.1, 0.4}), nil,
			"LF", "it takes 2.0x the tread and 2.0x the hub life of RF across the axle"},
		{"the hub outweighs the tread", car([4]float64{3, 2, 1, 2}, [4]float64{0.1, 0.1, 0.1, 0.5}), nil,
			"RR", "it takes 2.0x the tread and 5.0x the hub life of LR across the axle"},
		{"both sides alike", car([4]float64{1, 2, 4, 4.2}, [4]float64{0.1, 0.1, 0.3, 0.3}), nil,
			"rear axle", "its two sides lose about the same; it takes 2.1x the tread and 3.0x the hub life of the other axle"},
		{"the left front, both sides alike", car([4]float64{4.2, 4, 2, 1}, [4]float64{0.3, 0.3, 0.1, 0.1}), nil,
			"front axle", "its two sides lose about the same; it takes 2.1x the tread and 3.0x the hub life of the other axle"},
		{"alike in tread, not in hubs", car([4]float64{1, 1, 4, 4}, [4]float64{0.1, 0.1, 0.3, 0.4}), nil,
			"RR", "it takes 1.0x the tread and 1.3x the hub life of LR across the axle"},
		{"a circuit that turns left", car([4]float64{2, 5, 1, 1}, [4]float64{0.1, 0.4, 0.1, 0.1}),
			[]plan.Leg{ring("oval", 10, 0.9), ring("ring", 20, 0.4), {Kind: profiles.RoadLeg, LeftShare: 0, Laps: 99}},
			"RF", "it takes 2.5x the tread and 4.0x the hub life of LF across the axle; oval takes 90 % of its cornering load in left turns, which lean on the right-hand wheels"},
		// 40 laps of it pull 40 x 0.15 = 6, more than the oval's 10 x 0.4 = 4.
		{"one that turns right, two days", car([4]float64{5, 2, 1, 1}, [4]float64{0.4, 0.1, 0.1, 0.1}),
			[]plan.Leg{ring("oval", 10, 0.9), ring("ring", 20, 0.35), ring("ring", 20, 0.35)},
			"LF", "it takes 2.5x the tread and 4.0x the hub life of RF across the axle; ring takes 65 % of its cornering load in right turns, which lean on the left-hand wheels"},
		{"as many left as right", car([4]float64{2, 5, 1, 1}, [4]float64{0.1, 0.4, 0.1, 0.1}), []plan.Leg{ring("ring", 20, 0.52)},
			"RF", "it takes 2.5x the tread and 4.0x the hub life of LF across the axle"},
		{"nothing across the axle", car([4]float64{0, 5, 1, 1}, [4]float64{0.1, 0.4, 0.1, 0.1}), nil,
			"RF", "it takes all the tread and 4.0x the hub life of LF across the axle"},
		{"nothing driven", [4]plan.Corner{}, nil, "", ""},
		{"nothing from the tread", car([4]float64{}, [4]float64{0.1, 0.4, 0.1, 0.1}), nil, "", ""},
	} {
		if place, why := Suffers(c.cs, c.legs); place != c.place || why != c.why {
			t.Errorf("%s: %s, %q\nwant %s, %q", c.what, place, why, c.place, c.why)
		}
	}
}
