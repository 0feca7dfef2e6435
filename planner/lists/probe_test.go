package lists

import (
	"math"
	"testing"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// Depths within two spreads of the gauge are even: the zone named low is the
// lowest beyond them.
func TestUnevenness(t *testing.T) {
	for _, c := range []struct {
		depths []quantity.Length
		want   plan.Wearing
	}{
		{nil, plan.NotMeasured}, {[]quantity.Length{20, 20}, plan.NotMeasured}, {[]quantity.Length{20, 20, 20}, plan.Evenly},
		{[]quantity.Length{20, 18, 19}, plan.Evenly}, {[]quantity.Length{20, 17, 19}, plan.MiddleLow},
		{[]quantity.Length{17, 18, 20}, plan.InsideLow}, {[]quantity.Length{20, 18, 17}, plan.OutsideLow}, {[]quantity.Length{17, 20, 17}, plan.InsideLow},
	} {
		if got := unevenness(c.depths, 1); got != c.want {
			t.Errorf("%v: %s, want %s", c.depths, got, c.want)
		}
	}
}

// Tread of 8 mm with a limit of 2 that loses 1.5 at one zone and 0.5 at
// another lasts four such trips; where nothing is lost it lasts without end.
func TestTripsOf(t *testing.T) {
	tread := &profiles.TirePart{NewDepth: 8, Limit: 2}
	if got := tripsOf([3]float64{0.5, 1.5, 0}, tread); got != 4 {
		t.Errorf("%g trips, want 4", got)
	}
	if got := tripsOf([3]float64{}, tread); !math.IsInf(got, 1) {
		t.Errorf("%g trips, though nothing is lost", got)
	}
}
