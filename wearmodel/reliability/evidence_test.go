package reliability

import (
	"math"
	"testing"
)

// A mixture of two normals has the mean and the spread of the textbook: for
// weights 3 and 1, means 1 and 2, deviations 0.2 and 0.4 that is 1.25 and
// sqrt(0.75 (0.04 + 1) + 0.25 (0.16 + 4) - 1.25^2) = 0.507445. By hand.
func TestLogOfMixture(t *testing.T) {
	s := NewScale(Prior{Shape: 1.5, Weights: []float64{3, 1}, Means: []float64{1, 2}, SDs: []float64{0.2, 0.4}})
	mean, sd := s.Log()
	near(t, "mean", mean, 1.25, 1e-6)
	near(t, "standard deviation", sd, 0.507445, 1e-5)
}

// What is believed now is what will be believed after an inspection, by the
// chance of each of its outcomes: bad at the first, bad at the second, good at
// both (the law of total probability).
func TestEvidenceAddsUp(t *testing.T) {
	s := NewScale(HubPrior())
	for _, ages := range [][2]float64{{0.5, 3}, {2, 2.5}, {0.01, 8}} {
		d1, d2 := ages[0], ages[1]
		first, both := s.Survive(0, d1), s.Survive(0, d2)
		early, _ := s.FoundBad(0, d1).Log()
		late, _ := s.FoundBad(d1, d2).Log()
		good, _ := s.Good(d2).Log()
		now, _ := s.Log()
		near(t, "mean of ln scale", (1-first)*early+(first-both)*late+both*good, now, 1e-6)
	}
}

// The chance of failing at a hazard h is 1 - exp(-h): h itself where it is
// small, and 1 less next to nothing where it is large. exp(-2) = 0.135335,
// exp(-50) = 1.92875e-22, ln 1e-20 = -46.0517.
func TestLogFails(t *testing.T) {
	for hazard, want := range map[float64]float64{1e-20: -46.0517, 2: -0.145413, 50: -1.92875e-22} {
		near(t, "ln of the chance", logFails(hazard), want, 1e-5)
	}
}

// Evidence that leaves next to no probability anywhere is still a belief: a
// bearing that was good at 1e8 L10 has the largest scale the grid has.
func TestBeliefOutlivesAnyEvidence(t *testing.T) {
	s := NewScale(HubPrior()).Good(1e8)
	near(t, "median of ln scale", math.Log(scaleAt(s, 0.5)), s.at[len(s.at)-1], 1e-3)
	if p := s.Survive(0, 1); !(p > 0.99 && p <= 1) {
		t.Errorf("survival %v", p)
	}
}

// A share beyond all of the belief stays on the grid.
func TestQuantileEnds(t *testing.T) {
	s := NewScale(HubPrior())
	if most, end := scaleAt(s, 1.5), math.Exp(s.at[len(s.at)-1]+s.step[len(s.at)-1]/2); most < scaleAt(s, 1) || most > end*(1+1e-12) {
		t.Errorf("beyond all %g, all %g, the grid ends at %g", most, scaleAt(s, 1), end)
	}
}
