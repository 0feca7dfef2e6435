package learning

import (
	"math"
	"testing"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/reliability"
)

// What is told of a corner's bearings: those found bad with their ages, those
// still good, the life that half of new ones reach, and the chances of one, two
// and three usual circuit days.
func TestHubsTold(t *testing.T) {
	usual := reliability.NewScale(reliability.HubPrior())
	poor := usual.FoundBad(0, 0.01).FoundBad(0, 0.02)
	day := hubWear(true, 0.03)
	l := &Evidence{Way: &trip.Journey{PerDay: *day.Nominal()}, Posterior: projection.Posterior{Hubs: map[string]reliability.Scale{"hub-RF": poor}}}
	l.Way.On = map[profiles.Kind]map[string]kind.At{profiles.Bearing: {"RF": {Entry: &profiles.Fitted{}, Place: "RF"}}}
	l.replaced = map[string][]partHistory{"hub-RF": {{badAt: 0.01}, {goodAt: 0.005, badAt: 0.02}, {goodAt: 0.5}, {onCar: true}}}
	var told plan.Teaching
	l.teachHubs(&told)
	if len(told.Hubs) != 1 {
		t.Fatalf("%d corners, want RF alone", len(told.Hubs))
	}
	h := told.Hubs[0]
	if h.Place != "RF" || h.Good != 2 || len(h.Bad) != 2 || h.Bad[1] != 0.02 {
		t.Errorf("%+v", h)
	}
	if poor, all := poor.Survive(0, h.Middle), usual.Survive(0, h.Usual); math.Abs(poor-0.5) > 1e-6 || math.Abs(all-0.5) > 1e-6 || h.Middle >= h.Usual {
		t.Errorf("half of new ones reach %g, %g elsewhere: %g and %g do", h.Middle, h.Usual, poor, all)
	}
	for i := range h.Lasts {
		days := 0.03 * float64(i+1)
		if math.Abs(h.Lasts[i]-poor.Survive(0, days)) > 1e-12 || math.Abs(h.UsualLasts[i]-usual.Survive(0, days)) > 1e-12 {
			t.Errorf("%d days: %g and %g", i+1, h.Lasts[i], h.UsualLasts[i])
		}
	}
}

// A rate of twice the model's with a spread of 0.1 lies between 1.76 and 2.27
// in 80 of 100; it is said to be learned where that spread is less than 97 % of
// the one before.
func TestMultiplierByHand(t *testing.T) {
	for prior, taught := range map[float64]bool{0.2: true, 0.1 / 0.96: true, 0.1 / 0.98: false, 0.1: false} {
		m := multiplier(math.Ln2, 0.1, prior)
		if math.Abs(m.Median-2) > 1e-12 || math.Abs(m.Low-1.759) > 1e-3 || math.Abs(m.High-2.2735) > 1e-3 || m.Taught != taught {
			t.Errorf("spread of %g before: %+v", prior, m)
		}
	}
}
