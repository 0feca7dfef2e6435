package reliability

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// event is one weekend in L10 of the example below.
const event = 0.2197

// The mixture is set to fail 12.5 % by L10 and 1.8 % over an event of 0.22
// (engineering choice; the figures from an independent program, with the shape
// known; that it is not, where a corner has a problem, changes them by less than a
// tenth).
func TestHubPrior(t *testing.T) {
	for _, wide := range []bool{false, true} {
		p, within := HubPrior(), 0.0
		if p.Wide[1] = wide; wide {
			within = 0.1
		}
		s := NewScale(p)
		near(t, "failed by L10", 1-s.Survive(0, 1), 0.125, 0.01+within)
		near(t, "failed over an event", 1-s.Survive(0, 0.22), 0.018, 0.03+within)
	}
}

// ofKnownShape is the prior of hubs as if every corner's shape were ISO 281's.
func ofKnownShape() Prior {
	p := HubPrior()
	p.Wide = nil
	return p
}

// Four bearings that lasted 2, 2, 3 and 2 weekends, by independent grids. At a
// moderately loaded corner the chances that the next one lasts no more than 1, 2 and
// 3 are 17, 40 and 58 % where the shape is 1.5, which is chance, and 4, 39 and 73 %
// where it is not known, which is wear-out; at a heavily loaded one, each found tight
// a weekend before, 28, 57 and 77 %, and 7, 59 and 91 %.
func TestWearOutHistory(t *testing.T) {
	for _, c := range []struct {
		prior   Prior
		weekend float64 // what one takes of an L10 life
		tight   bool    // a weekend before
		fails   [3]float64
		within  float64
	}{
		{ofKnownShape(), 0.068, false, [3]float64{0.17, 0.40, 0.58}, 0.01},
		{ofKnownShape(), 0.145, true, [3]float64{0.28, 0.57, 0.77}, 0.01},
		{HubPrior(), 0.068, false, [3]float64{0.04, 0.39, 0.73}, 0.05},
		{HubPrior(), 0.145, true, [3]float64{0.07, 0.59, 0.91}, 0.05},
	} {
		s := NewScale(c.prior)
		for _, n := range []float64{2, 2, 3, 2} {
			if c.tight {
				s = s.FoundBad((n-1)*c.weekend, n*c.weekend)
			} else {
				s = s.Failed(n * c.weekend)
			}
		}
		for i, want := range c.fails {
			got := 1 - s.Survive(0, float64(i+1)*c.weekend)
			t.Logf("%.3f a weekend: fails within %d with %.3f", c.weekend, i+1, got)
			if math.Abs(got-want) > c.within {
				t.Errorf("fails within %d weekends with %.3f, want %.2f", i+1, got, want)
			}
		}
		if odd := s.Odd(); c.prior.Wide != nil && odd < 0.95 {
			t.Errorf("the corner itself with %.3f", odd)
		}
	}
}

// A corner that failed after 2, 3 and 2 events. Grid posterior from an
// independent program, 0.5 %.
func TestReplacementHistory(t *testing.T) {
	plain := Prior{
		Shape: 1.5, Weights: []float64{1},
		Means: []float64{math.Log(4.4828)}, SDs: []float64{1.5},
	}
	for _, c := range []struct {
		name   string
		prior  Prior
		median float64
		lasts  [3]float64
	}{
		{"mixture", ofKnownShape(), 0.609, [3]float64{0.801, 0.562, 0.385}},
		{"plain", plain, 0.649, [3]float64{0.806, 0.566, 0.380}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := NewScale(c.prior).Failed(2 * event).Failed(3 * event).Failed(2 * event)
			near(t, "median scale", scaleAt(s, 0.5), c.median, 0.005)
			for i, want := range c.lasts {
				near(t, "chance that a new one lasts", s.Survive(0, float64(i+1)*event), want, 0.005)
			}
		})
	}
}

// scaleAt is the scale below which a belief puts a share.
func scaleAt(s Scale, share float64) float64 {
	sampler := s.At(0)
	logScale, _ := sampler.logScale(share)
	return math.Exp(logScale)
}

// A mixture of one narrow normal is a Weibull distribution of known scale.
func TestKnownScale(t *testing.T) {
	s := NewScale(Prior{Shape: 1.5, Weights: []float64{2}, Means: []float64{math.Log(4.4828)}, SDs: []float64{0.01}})
	w := Weibull{Shape: 1.5, Scale: 4.4828}
	near(t, "survival", s.Survive(2, 1), w.Survive(3)/w.Survive(2), 1e-3)
	near(t, "draw", s.At(2).Draw(0.5, 0.3), w.Remaining(2, 0.3), 1e-3)
}

// A failure seen between two close inspections is a failure, up to a constant.
func TestFoundBadClosesOnFailed(t *testing.T) {
	s := NewScale(HubPrior())
	near(t, "survival", s.FoundBad(0.5, 0.5001).Survive(0, 1), s.Failed(0.5).Survive(0, 1), 1e-4)
	near(t, "survival", s.FoundBad(0.5, 0.5).Survive(0, 1), s.Failed(0.5).Survive(0, 1), 1e-12)
}

// Evidence is heard once, whatever its order, and the old belief stands.
func TestUpdates(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := NewScale(HubPrior())
		a := rapid.Float64Range(0, 3).Draw(t, "a")
		b := a + rapid.Float64Range(0, 3).Draw(t, "b")
		before := s.Survive(0.1, 0.4)
		near(t, "order", s.Failed(a).Good(b).Survive(0, 0.3), s.Good(b).Failed(a).Survive(0, 0.3), 1e-9)
		if s.Survive(0.1, 0.4) != before {
			t.Error("an update changed the belief it started from")
		}
		if good, now := s.Good(b).Survive(0, 1), s.Survive(0, 1); good < now-1e-12 {
			t.Errorf("a good bearing lowered survival from %v to %v", now, good)
		}
		if bad, good := s.FoundBad(a, b).Survive(0, 1), s.Good(a).Survive(0, 1); bad > good+1e-12 {
			t.Errorf("a bad bearing raised survival from %v to %v", good, bad)
		}
	})
}

// Nothing a logbook can hold makes a probability that is none.
func TestScaleStaysFinite(t *testing.T) {
	ages := rapid.SampledFrom([]float64{-1, 0, 1e-300, 1e-9, 1e-3, 0.5, 1, 30, 1e6, 1e300, math.Inf(1)})
	rapid.Check(t, func(t *rapid.T) {
		s := NewScale(HubPrior()).Failed(ages.Draw(t, "failed"))
		s = s.Good(ages.Draw(t, "good"))
		s = s.FoundBad(ages.Draw(t, "d1"), ages.Draw(t, "d2"))
		at := s.At(ages.Draw(t, "age"))
		if p := at.Survive(ages.Draw(t, "extra")); !(p >= 0 && p <= 1) {
			t.Errorf("survival %v", p)
		}
		u := rapid.SampledFrom([]float64{0, 0.5, 1})
		if l := at.Draw(u.Draw(t, "u1"), u.Draw(t, "u2")); !(l >= 0) || math.IsInf(l, 0) {
			t.Errorf("life left %v", l)
		}
	})
}
