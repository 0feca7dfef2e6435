package trip

import (
	"math"
	"testing"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/duty"
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

// The heat of the fluid grows with how far the pads are used by then, those of
// any wheel: of 8 mm between new and the limit a quarter is used when the trip
// starts with 8 mm of 10, a half after a leg that takes 2.
func TestPadsUsedByALeg(t *testing.T) {
	pads := profiles.Part{Pads: &profiles.PadsPart{NewDepth: 10e-3, Limit: 2e-3}}
	fluid := profiles.Part{Fluid: &profiles.FluidPart{}}
	var taken Usage
	taken.At[1].Pad = [4]float64{2e-3, 2e-3, 2e-3, 2e-3}
	for left, want := range map[float64][2]float64{8: {0.25, 0.5}, 0: {0, 0.25}} {
		f := &profiles.Folder{}
		w := &Journey{Folder: f, Past: &Past{}, Legs: make([]plan.Leg, 3), Usages: []Usage{{}, taken, taken}, On: map[profiles.Kind]map[string]kind.At{
			profiles.Pads:  {},
			profiles.Fluid: {"system": {Folder: f, Part: fluid, Entry: &profiles.Fitted{}, Place: "system"}},
		}}
		for _, p := range duty.Places {
			entry := &profiles.Fitted{}
			if left > 0 {
				entry.Pad = map[string]quantity.Length{p.String(): quantity.Length(left / 1000)}
			}
			w.On[profiles.Pads][p.String()] = kind.At{Folder: f, Part: pads, Entry: entry, Place: p.String()}
		}
		w.heatFluid()
		for leg, share := range want {
			for p, got := range w.Usages[leg].Nominal().PadsWorn {
				if math.Abs(got-share) > 1e-9 {
					t.Errorf("%g mm read, leg %d, %v: %.3f used, want %.3f", left, leg+1, duty.Place(p), got, share)
				}
			}
		}
	}
}
