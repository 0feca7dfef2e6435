package reliability

import (
	"math"
	"testing"
)

// walked is a random walk of three steps from 0, of spreads 0.1, 0.2 and 0.3.
func walked(readings ...Reading) Fit {
	return Rates{
		Factors:  []Factor{{SD: 0.1}, {SD: 0.2, After: 1}, {SD: 0.3, After: 2}},
		Starts:   []Start{{Mean: 10, SD: 1e-6}},
		Readings: readings,
	}.Fit(Fit{})
}

func logs(factors ...int) (forms []Form) {
	for _, f := range factors {
		forms = append(forms, Form{Powers: []Power{{f, 1}}})
	}
	return forms
}

// The variances of a random walk add up from step to step, and two of its places
// have those of the first in common (textbook).
func TestRandomWalk(t *testing.T) {
	fit := walked()
	_, cov := fit.Joint(logs(0, 1, 2))
	for i, want := range [][]float64{{0.01, 0.01, 0.01}, {0.01, 0.05, 0.05}, {0.01, 0.05, 0.14}} {
		for j, v := range want {
			near(t, "covariance", cov[i][j], v, 1e-12)
		}
	}
	for i, want := range []float64{0.01, 0.04, 0.09} {
		mean, variance := fit.Step(i)
		near(t, "step's variance", variance, want, 1e-12)
		if mean != 0 {
			t.Errorf("step %d: mean %g", i, mean)
		}
	}
}

// Once the middle of a walk is known to be ln 1.5, the place before it lies a
// fifth of the way there, as its variance is 0.01 of 0.05, with 0.01 x 0.04 / 0.05
// left; the place after it is where it is, by its own step. The textbook's bridge,
// whichever of the three a reading touches.
func TestRandomWalkBridge(t *testing.T) {
	fit := walked(Reading{Level: 10 - 2*1.5, Gauge: 1e-6, Taken: []Taken{{2, []Power{{1, 1}}}}})
	mean, cov := fit.Joint(logs(0, 1, 2))
	for i, want := range [][2]float64{{math.Log(1.5) / 5, 0.008}, {math.Log(1.5), 2e-12 / 9}, {math.Log(1.5), 0.09}} {
		near(t, "mean", mean[i], want[0], 1e-6)
		near(t, "variance", cov[i][i], want[1], 1e-6)
	}
	first, _ := fit.Step(0)
	second, variance := fit.Step(1)
	near(t, "steps", first+second, math.Log(1.5), 1e-6)
	near(t, "step's variance", variance, 0.008, 1e-6)
}
