package decision

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

// All days on a circuit turn an answer together, a road by itself.
func TestGroup(t *testing.T) {
	c := chooser{way: &trip.Journey{Legs: []plan.Leg{
		{Kind: profiles.RoadLeg}, {Kind: profiles.CircuitLeg, Circuit: "ring"}, {Kind: profiles.CircuitLeg, Circuit: "oval"},
		{Kind: profiles.CircuitLeg, Circuit: "ring"}, {Kind: profiles.RoadLeg},
	}}}
	for leg, want := range map[int][]int{0: {0}, 1: {1, 3}, 2: {2}, 3: {1, 3}, 4: {4}} {
		if diff := cmp.Diff(want, c.sameCircuit(leg)); diff != "" {
			t.Errorf("leg %d (-want +got):\n%s", leg, diff)
		}
	}
}

// flipping is a set that loses so much on each of two circuit days of 20 laps
// between two roads, of 4 mm to its limit, without any spread.
func flipping(day float64) chooser {
	legs := []plan.Leg{
		{Kind: profiles.RoadLeg, Meters: 100e3}, {Kind: profiles.CircuitLeg, Circuit: "ring", Laps: 20},
		{Kind: profiles.CircuitLeg, Circuit: "ring", Laps: 20}, {Kind: profiles.RoadLeg, Meters: 100e3},
	}
	s := &projection.Set{Spec: kind.Pads, Set: plan.Set{ID: "flipping", Kind: profiles.Pads, Critical: true, Most: 1}, FitAt: []string{"home"}}
	p := projection.Level{Point: plan.Point{New: 10e-3, Start: 6e-3, Limit: 2e-3, Margin: 2e-3}, From: 6e-3}
	var usages []trip.Usage
	for _, l := range legs {
		taken := 0.0
		if l.Kind == profiles.CircuitLeg {
			taken = day
		}
		p.LegLoss = append(p.LegLoss, trip.Loss{taken, taken, taken})
		p.Loss = append(p.Loss, taken)
		usages = append(usages, trip.Usage{Circuit: l.Kind == profiles.CircuitLeg})
	}
	s.Levels = []projection.Level{p}
	s.AddReplacement()
	f := &profiles.Folder{}
	f.Car.Costs = profiles.Costs{Stranded: 1000, Hour: 40, Shop: 130}
	c := chooser{set: s, way: &trip.Journey{Folder: f, Legs: legs, Usages: usages}, part: profiles.Part{Price: 100, Hours: 3600}, safety: profiles.Safety{Cap: 0.0625, Run: 0.125}}
	f.Model.Safety = c.safety
	c.w = projection.NewWorker(projection.NewDraws(200, 1), usages)
	return c
}

// Days that take 1 mm each of 4 can be twice as long before the pads have to
// be replaced, 80 laps in all; days that take 4 have to be half as long, 20
// laps, before they need not be. Six halvings tell it within a thirtieth. Where
// three times as much changes nothing, nothing is said.
func TestFlip(t *testing.T) {
	for _, c := range []struct {
		day         float64 // m
		chosen      plan.Action
		less        bool
		least, most int
	}{
		{1e-3, plan.Run, false, 80, 82},
		{4e-3, plan.ReplaceBefore, true, 19, 20},
	} {
		ch := flipping(c.day)
		got := ch.flip(ch.w, c.chosen)
		if got == nil {
			t.Errorf("%g mm a day: nothing turns it", 1000*c.day)
			continue
		}
		if got.Leg != 1 || got.Less != c.less || got.Laps < c.least || got.Laps > c.most || got.Meters != 0 || (got.Action == plan.Run) != c.less {
			t.Errorf("%g mm a day: %+v", 1000*c.day, got)
		}
	}
	small := flipping(0.5e-3)
	if got := small.flip(small.w, plan.Run); got != nil {
		t.Errorf("three times 1 mm of 4: %+v", got)
	}
	if got := small.flip(small.w, plan.ReplaceBefore); got != nil {
		t.Errorf("what by itself would run: %+v", got)
	}
	// What not a tenth of the laps would turn is not said: nobody drives there
	// for so few.
	worn := flipping(45e-3)
	if got := worn.flip(worn.w, plan.ReplaceBefore); got != nil {
		t.Errorf("a tenth of 45 mm a day of 4: %+v", got)
	}
	// A road turns it by its miles.
	road := flipping(1e-3)
	road.set.Most = 0
	for _, s := range []*projection.Set{road.set, road.set.Replacement} {
		s.Levels[0].LegLoss[0] = trip.Loss{1e-3, 1e-3, 1e-3}
	}
	if got := road.flip(road.w, plan.Run); got == nil || got.Leg != 0 || got.Laps != 0 || got.Meters < 200e3 || got.Meters > 204e3 {
		t.Errorf("1 of the 2 mm that are left a road of 100 km: %+v, want it at 200 km", got)
	}
}

// A set loses most on the leg that takes most of its first point, the earlier
// of two alike, be it the first; where nothing is taken on none. The share of
// its life that each leg takes is what it takes of what there is from new to
// the limit.
func TestMostOfItsLife(t *testing.T) {
	for _, c := range []struct {
		loss [4]float64 // mm
		most int
	}{{[4]float64{0, 2, 2, 1}, 1}, {[4]float64{2, 0.5, 0.5, 1}, 0}, {[4]float64{0, 0, 0, 1}, 3}, {[4]float64{}, -1}} {
		ch := flipping(0)
		ch.set.Most = -1
		for j, l := range c.loss {
			ch.set.Levels[0].Loss[j] = l * 1e-3
		}
		ch.set.ProjectAsIs(ch.w, len(ch.way.Legs))
		if ch.set.Most != c.most {
			t.Errorf("%v: most on leg %d, want %d", c.loss, ch.set.Most, c.most)
		}
		for j, l := range c.loss {
			if want := l / 8; ch.set.Used[j] < want-1e-12 || ch.set.Used[j] > want+1e-12 {
				t.Errorf("%v: leg %d takes %g, want %g", c.loss, j, ch.set.Used[j], want)
			}
		}
	}
}
