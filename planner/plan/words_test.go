package plan

import (
	"testing"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles/quantity"
)

// TestSay: what a leg wants stands beside what is expected where it is asked,
// and a check without a figure is its words alone.
func TestSay(t *testing.T) {
	p := &Plan{Legs: []Leg{{Name: "Heron Flats"}, {Name: "the way home"}}}
	c := Check{What: "front pads", Measure: kind.PadLining, Act: 0.003, Stop: 0.002, Expect: []Reading{
		{Leg: 0, Level: 0.008, Need: 0.005}, {Leg: 1, Level: 0.006}, {Leg: 2, Level: 0.0055},
	}}
	for want, c := range map[string]Check{
		"front pads: expect about 8.0 mm before Heron Flats (which wants 5.0 mm), 6.0 mm before the way home, 5.5 mm back home; act at 3.0 mm, stop at 2.0 mm": c,
		"front pads": {What: "front pads", Measure: kind.PadLining, Stop: 0.002},
		"wheel nuts": {What: "wheel nuts", Expect: c.Expect},
	} {
		if got := p.Say(c, quantity.Metric); got != want {
			t.Errorf("said %q, want %q", got, want)
		}
	}
}
