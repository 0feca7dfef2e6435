package reliability

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
)

// longHistory is a part renewed again and again, driven on visits that each
// have a pace of their own, read after every one.
func longHistory(parts, visits int) Rates {
	random := rand.New(rand.NewPCG(1, 2))
	r := Rates{Factors: []Factor{{0, 0.3}, {0, 0.2}}}
	for range parts {
		start, level := len(r.Starts), 8.0
		r.Starts = append(r.Starts, Start{8, 0.1})
		taken := []Taken{{0.05, []Power{{0, 1}}}}
		for range visits {
			taken = append(slices.Clone(taken), Taken{0.6, []Power{{0, 1}, {1, 0.5}, {len(r.Factors), 0.1}}})
			r.Factors = append(r.Factors, Factor{0, 1})
			level -= 0.7 * math.Exp(0.1*random.NormFloat64())
			r.Readings = append(r.Readings, Reading{Start: start, Level: level + 0.2*random.NormFloat64(), Gauge: 0.2, Taken: taken})
		}
	}
	return r
}

// The covariance is the inverse of the curvature as gonum has it by finite
// differences of the cost at the most likely point, for some pairs of factors.
func TestCovarianceIsTheCurvatures(t *testing.T) {
	r := longHistory(4, 3)
	fit := r.Fit(Fit{})
	n := len(fit.at)
	curvature := mat.NewSymDense(n, nil)
	cost := func(i int, di float64, j int, dj float64) float64 {
		x := slices.Clone(fit.at)
		x[i] += di
		x[j] += dj
		return r.cost(x)
	}
	const d = 1e-4
	for i := range n {
		for j := range i + 1 {
			curvature.SetSym(i, j, (cost(i, d, j, d)-cost(i, d, j, -d)-cost(i, -d, j, d)+cost(i, -d, j, -d))/(4*d*d))
		}
	}
	var inverse mat.Dense
	if err := inverse.Inverse(curvature); err != nil {
		t.Fatal(err)
	}
	for _, pair := range [][2]int{{0, 1}, {0, 2}, {1, 7}, {5, 11}, {13, 13}} {
		a, b := pair[0], pair[1]
		_, _, varA, _, cov := fit.Log([]Power{{a, 1}}, []Power{{b, 1}})
		near(t, fmt.Sprint("variance of ", a), varA, inverse.At(a, a), 2e-5)
		near(t, fmt.Sprint("covariance of ", pair), cov, inverse.At(a, b), 2e-5)
	}
}

// What the fit knows of its own readings is what it says of any level.
func TestLevelsOfReadings(t *testing.T) {
	r := longHistory(5, 4)
	fit, k := r.Fit(Fit{}), 0
	fit.levels(func(y Reading, level, variance float64) {
		wantLevel, sd := fit.Level(y.Start, y.Taken)
		near(t, fmt.Sprint("level ", k), level, wantLevel, 1e-12)
		near(t, fmt.Sprint("variance ", k), variance, sd*sd, 1e-12)
		k++
	})
	if k != len(r.Readings) {
		t.Errorf("%d levels of %d readings", k, len(r.Readings))
	}
}

// A search that begins at another fit ends at the same point.
func TestFitFromNearby(t *testing.T) {
	r := longHistory(6, 4)
	less := r
	less.Readings = r.Readings[:len(r.Readings)-5]
	cold, warm := less.Fit(Fit{}), less.Fit(r.Fit(Fit{}))
	for i := range cold.at {
		if !scalar.EqualWithinAbs(warm.at[i], cold.at[i], 1e-9) {
			t.Errorf("factor %d is %g, from the prior %g", i, warm.at[i], cold.at[i])
		}
	}
}

// Draws of a long history, of which only what is asked for is drawn, have the
// mean and the spread that Level has, as those of a short one have.
func TestDrawsOfALongHistory(t *testing.T) {
	for _, parts := range []int{4, 60} {
		r := longHistory(parts, 5)
		fit := r.Fit(Fit{})
		if whole := len(fit.at) <= drawnWhole; whole != (parts == 4) {
			t.Fatalf("%d factors and starts are drawn whole: %t", len(fit.at), whole)
		}
		last := r.Readings[len(r.Readings)-1]
		random := rand.New(rand.NewPCG(3, 4))
		draws := fit.Predict([]Ask{{last.Start, last.Taken}}, 4000, random.NormFloat64)[0]
		level, sd := fit.Level(last.Start, last.Taken)
		mean, spread := stat.MeanStdDev(draws, nil)
		near(t, fmt.Sprint("mean of ", parts), mean, level, 0.25*sd/level) // the draws bend, Level does not
		near(t, fmt.Sprint("spread of ", parts), spread, sd, 0.05)
	}
}
