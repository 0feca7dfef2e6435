package decision

import (
	"strings"
	"testing"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

// A reason names the leg in which the limit is most likely crossed, be it the
// first; of two alike the earlier. It names the first leg that more likely
// than not ends past the margin.
func TestLegsNamed(t *testing.T) {
	limits := func(chances ...float64) (after []plan.Band) {
		for _, p := range chances {
			after = append(after, plan.Band{PLimit: p})
		}
		return after
	}
	margins := func(chances ...float64) (after []plan.Band) {
		for _, p := range chances {
			after = append(after, plan.Band{PMargin: p})
		}
		return after
	}
	b := &trip.Journey{Legs: []plan.Leg{{Name: "the road out"}, {Name: "the ring"}, {Name: "the road home"}}}
	for _, c := range []struct {
		after        []plan.Band
		when, margin string
	}{
		{limits(0.3, 0.4, 0.5), "on the road out", "late"},
		{limits(0.125, 0.5, 0.75), "on the ring", "late"},
		{limits(0, 0.25, 0.5), "on the ring", "late"},
		{limits(0, 0, 0.01), "on the road home", "late"},
		{limits(0, 0, 0), "nowhere", "late"},
		{margins(0.6, 0.7, 0.8), "nowhere", "on the road out"},
		{margins(0.1, 0.5, 0.51), "nowhere", "on the road home"},
		{margins(0.1, 0.4, 0.5), "nowhere", "late"},
	} {
		ch := chooser{set: &projection.Set{Set: plan.Set{After: c.after}}, way: b}
		if when, margin := ch.when(), ch.marginLeg(); when != c.when || margin != c.margin {
			t.Errorf("%+v: %s and %s, want %s and %s", c.after, when, margin, c.when, c.margin)
		}
	}
}

// What is watched says why: for its limit where that is likelier than is let
// run, for its margin where it is not; oil for its interval. A spare that has
// to be on by a leg says which.
func TestReasonsToWatch(t *testing.T) {
	reason := func(ofKind profiles.Kind, d plan.Decision) string {
		c := choosing(ofKind)
		c.set.Levels[1].Measure, c.set.Levels[0].Measure = kind.PadLining, kind.PadLining
		c.set.First, c.set.Critical = 1, ofKind != profiles.Oil
		c.set.After = []plan.Band{{PLimit: 0}, {PLimit: 0.0625, PMargin: 0.75}, {PLimit: 0.125, PMargin: 0.75}, {PLimit: 0.25, PMargin: 0.75}}
		for j, name := range []string{"out", "the ring", "the ring day 2", "home"} {
			c.way.Legs[j].Name = name
		}
		op := option{Decision: d}
		c.explain(&op)
		return op.Reason
	}
	for _, c := range []struct {
		kind profiles.Kind
		d    plan.Decision
		want string
	}{
		{profiles.Pads, plan.Decision{Action: plan.Watch, Leg: -1, PAsIs: 0.126}, "about 13 % chance to reach the limit, most likely on home"},
		{profiles.Pads, plan.Decision{Action: plan.Watch, Leg: -1, PAsIs: 0.119}, "it passes its margin on the ring but should stay off the limit (12 % chance to reach it)"},
		{profiles.Oil, plan.Decision{Action: plan.Watch, Leg: -1, PAsIs: 0.126}, "it passes its interval on the ring but should stay under its ceiling"},
		{profiles.Pads, plan.Decision{Action: plan.Bring, Leg: -1, PAsIs: 0.25}, "fit the spare in the paddock when the checks show the margin"},
		{profiles.Pads, plan.Decision{Action: plan.Bring, Leg: 2, PAsIs: 0.25}, "at the latest before the ring day 2"},
	} {
		if got := reason(c.kind, c.d); !strings.Contains(got, c.want) {
			t.Errorf("%s, %s at %d: %q does not say %q", c.kind, c.d.Action, c.d.Leg, got, c.want)
		}
	}
	if got := reason(profiles.Pads, plan.Decision{Action: plan.Bring, Leg: -1, PAsIs: 0.25}); strings.Contains(got, "at the latest") {
		t.Errorf("a spare for need alone has no leg: %q", got)
	}
}
