package learning

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/reliability"
)

// What is told of a corner's bearings: those found bad with their ages, those
// that were still good, which a bearing nobody felt yet is not, the life that half of new ones reach, and the chances of one, two
// and three usual circuit days.
func TestHubsTold(t *testing.T) {
	usual := reliability.Hubs()
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
	if h.Place != "RF" || h.Good != 1 || len(h.Bad) != 2 || h.Bad[1] != 0.02 {
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

// Of simulated corners that lost bearings after 2, 2 and 3 weekends, then had a
// repair that cured half of them, three more weekends tell which in four of five.
func TestCuredOrNot(t *testing.T) {
	const weekend, n = 0.065, 200
	random := rand.New(rand.NewPCG(5, 6))
	right := 0
	for i := range n {
		cured := i%2 == 0
		scale, shape := 2.6*weekend, 3.5 // of a corner that wears bearings out
		if cured {
			scale, shape = 4.6*math.Exp(0.3*random.NormFloat64()), 1.5
		}
		history := []partHistory{{badAt: 2 * weekend}, {badAt: 2 * weekend}, {badAt: 3 * weekend}}
		for k := range history {
			history[k].goodAt = history[k].badAt - weekend
		}
		next := partHistory{since: true, onCar: true}
		life := scale * math.Pow(random.ExpFloat64(), 1/shape)
		for k := 1; k <= 3; k++ {
			if at := float64(k) * weekend; life > at {
				next.goodAt = at
			} else {
				next.badAt = at
				break
			}
		}
		l := &Evidence{replaced: map[string][]partHistory{"hub-RF": append(history, next)}, repaired: map[string]bool{"hub-RF": true}, corners: map[string]corner{}}
		l.Hubs = map[string]reliability.Scale{}
		l.learnHubLives("hub-RF")
		if (l.corners["hub-RF"].cured > 0.5) == cured {
			right++
		}
	}
	if t.Logf("%d of %d told rightly", right, n); right < n*4/5 {
		t.Errorf("%d of %d told rightly", right, n)
	}
}
