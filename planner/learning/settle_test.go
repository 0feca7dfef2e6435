package learning

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/wearmodel/reliability"
)

// bearings are a corner that is simulated: the scale and the shape of its bearings'
// lives, as many events each as it lasts.
type bearings struct {
	odd          bool
	scale, shape float64
}

// aCorner is one of many cars': three in a hundred eat bearings, of which some do
// so by chance and some by wear-out.
func aCorner(random *rand.Rand) bearings {
	if random.Float64() < 0.03 {
		return bearings{true, math.Exp(math.Log(0.65) + 0.7*random.NormFloat64()), math.Min(5, math.Max(1, 3.2*math.Exp(0.5*random.NormFloat64())))}
	}
	return bearings{false, math.Exp(math.Log(4.6) + 0.3*random.NormFloat64()), 1.5}
}

// events is after how many events of so much a new bearing is found bad.
func (b bearings) events(random *rand.Rand, event float64) int {
	return 1 + int(b.scale*math.Pow(random.ExpFloat64(), 1/b.shape)/event)
}

// fails is a bearing that was found bad after some events, tight after the one before.
func fails(events int, event float64) partHistory {
	return partHistory{goodAt: float64(events-1) * event, badAt: float64(events) * event}
}

// Of simulated corners that lost two bearings within ten events the chances that
// learn prints hold: how many corners are wrong, and how many new bearings last 1,
// 2 and 3 events.
func TestHubSentences(t *testing.T) {
	const event, most = 0.2, 10
	random := rand.New(rand.NewPCG(31, 7))
	n, odd, saidOdd := 0.0, 0.0, 0.0
	var lasts, saidLasts [3]float64
	for n < 250 {
		c := aCorner(random)
		first, second := c.events(random, event), c.events(random, event)
		if first+second > most {
			continue
		}
		l := &Evidence{replaced: map[string][]partHistory{"hub-RF": {fails(first, event), fails(second, event)}}, repaired: map[string]bool{}, corners: map[string]corner{}}
		l.Hubs = map[string]reliability.Scale{}
		l.learnHubLives("hub-RF")
		if n++; c.odd {
			odd++
		}
		saidOdd += l.corners["hub-RF"].odd
		next, belief := c.events(random, event), l.Hubs["hub-RF"].At(0)
		for i := range lasts {
			saidLasts[i] += belief.Survive(float64(i+1) * event)
			if next > i+1 {
				lasts[i]++
			}
		}
	}
	within := func(what string, said, is float64) {
		said, is = said/n, is/n
		t.Logf("%s: %.3f said, %.3f are", what, said, is)
		if sd := math.Sqrt(is * (1 - is) / n); math.Abs(said-is) > 3*sd+0.01 {
			t.Errorf("%s: %.3f said, %.3f are", what, said, is)
		}
	}
	within("the corner itself", saidOdd, odd)
	for i := range lasts {
		within("lasts some events", saidLasts[i], lasts[i])
	}
}

// settlingOf is what would tell of a corner that lost bearings after 2, 2 and 3
// weekends and then was repaired.
func settlingOf(t *testing.T, weekend float64, days ...CircuitDay) (*Evidence, plan.HubTeaching) {
	t.Helper()
	f, _ := demo(t, "juniper")
	l := &Evidence{Way: &trip.Journey{Folder: f, On: kind.Fitted(f)}, repaired: map[string]bool{"hub-RF": true}, corners: map[string]corner{},
		replaced: map[string][]partHistory{"hub-RF": {fails(2, weekend), fails(2, weekend), fails(3, weekend)}}}
	l.Hubs = map[string]reliability.Scale{}
	l.learnHubLives("hub-RF")
	hubs := []plan.HubTeaching{{Place: "RF", Bad: []float64{1, 1, 1}}}
	l.Settle(hubs, days)
	return l, hubs[0]
}

// The circuit that asks most of a corner tells soonest; its days are the fewest
// that do; and the two chances make up what is believed of a new bearing.
func TestSettles(t *testing.T) {
	const weekend = 0.1
	easy, hard := hubWear(true, weekend/6), hubWear(true, weekend)
	l, h := settlingOf(t, weekend, CircuitDay{"easy", easy.Nominal()}, CircuitDay{"hard", hard.Nominal()})
	s := h.Settles
	if s == nil || s.Circuit != "hard" || s.Right < settled {
		t.Fatalf("settled by %+v", s)
	}
	c := l.corners["hub-RF"]
	if all, want := c.cured*s.Sound+(1-c.cured)*s.Wrong, l.Hubs["hub-RF"].Survive(0, float64(s.Days)*weekend); math.Abs(all-want) > 1e-9 {
		t.Errorf("lasts with %.4f, believed %.4f", all, want)
	}
	if s.Days > 1 {
		before := float64(s.Days-1) * weekend
		w, s := c.uncured.Survive(0, before), c.mended.Survive(0, before)
		if less := math.Max((1-c.cured)*w, c.cured*s) + math.Max((1-c.cured)*(1-w), c.cured*(1-s)); less >= settled {
			t.Errorf("a day less tells with %.3f", less)
		}
	}
	if known := settling(c.uncured, c.mended, 0.95, weekend); known != nil {
		t.Errorf("known already: %+v", known)
	}
}

// Of simulated corners, half of them cured, the days that learn asks for tell
// which as often as it says, within 5 in a hundred.
func TestSettlesRightly(t *testing.T) {
	const weekend, n = 0.1, 2000
	day := hubWear(true, weekend/2)
	_, h := settlingOf(t, weekend, CircuitDay{"Heron Flats", day.Nominal()})
	random := rand.New(rand.NewPCG(3, 4))
	right := 0.0
	for i := range n {
		c := bearings{true, 2.6 * weekend, 3.5}
		if i%2 == 0 {
			for c = aCorner(random); c.odd; c = aCorner(random) {
				continue
			}
		}
		if lasted := c.events(random, weekend/2) > h.Settles.Days; lasted == (i%2 == 0) {
			right += 1.0 / n
		}
	}
	if t.Logf("%+v: right in %.3f", *h.Settles, right); right < h.Settles.Right-0.05 {
		t.Errorf("right in %.3f, said %.3f", right, h.Settles.Right)
	}
}
