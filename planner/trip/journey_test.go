package trip

import (
	"math"
	"testing"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// A fill of 1 May is 14 days old at departure on 15 May, and two and a half
// more when a leg ends on the third day at noon. Without a date of either only
// the trip's own days count.
func TestAgeOfAFill(t *testing.T) {
	filled, leaves := time.Date(2027, 5, 1, 0, 0, 0, 0, time.UTC), time.Date(2027, 5, 15, 0, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		filled, leaves time.Time
		want           float64
	}{{filled, leaves, 16.5}, {time.Time{}, leaves, 2.5}, {filled, time.Time{}, 2.5}} {
		entry := &profiles.Fitted{}
		entry.Since.Date = c.filled
		w := &Journey{Depart: c.leaves, Legs: []plan.Leg{{EndDay: 1}, {EndDay: 2.5}}}
		if got := w.Moment(kind.At{Entry: entry}, 1).Age; math.Abs(got-c.want) > 1e-9 {
			t.Errorf("filled %v, leaves %v: %g days, want %g", c.filled, c.leaves, got, c.want)
		}
	}
}

// The heat of the fluid grows with how far the front pads are used by then: of
// 8 mm between new and the limit a quarter is used when the trip starts with
// 8 mm of 10, a half after a leg that takes 2.
func TestPadsUsedByALeg(t *testing.T) {
	pads := profiles.Part{Pads: &profiles.PadsPart{NewDepth: 10e-3, Limit: 2e-3}}
	fluid := profiles.Part{Fluid: &profiles.FluidPart{}}
	var taken Usage
	taken.At[1].Pad[0] = 2e-3
	for left, want := range map[float64][2]float64{8: {0.25, 0.5}, 0: {0, 0.25}} {
		entry, f := &profiles.Fitted{}, &profiles.Folder{}
		if left > 0 {
			entry.Pad = map[string]quantity.Length{"LF": quantity.Length(left / 1000)}
		}
		w := &Journey{Legs: make([]plan.Leg, 3), Usages: []Usage{{}, taken, taken}, On: map[profiles.Kind]map[string]kind.At{
			profiles.Pads:  {"LF": {Folder: f, Part: pads, Entry: entry, Place: "LF"}},
			profiles.Fluid: {"system": {Folder: f, Part: fluid, Entry: &profiles.Fitted{}, Place: "system"}},
		}}
		w.heatFluid()
		for leg, share := range want {
			if got := w.Usages[leg].Nominal().PadsWorn; math.Abs(got-share) > 1e-9 {
				t.Errorf("%g mm read, leg %d: %.3f used, want %.3f", left, leg+1, got, share)
			}
		}
	}
}
