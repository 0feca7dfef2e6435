package reliability

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/mat"
)

// longHistory is a part renewed again and again, driven on visits that each
// have a pace of their own, read after every one.
func longHistory(parts, visits int) Rates {
	random := rand.New(rand.NewPCG(1, 2))
	r := Rates{Factors: []Factor{{SD: 0.3}, {SD: 0.2}}}
	for range parts {
		start, level := len(r.Starts), 8.0
		r.Starts = append(r.Starts, Start{8, 0.1})
		taken := []Taken{{0.05, []Power{{0, 1}}}}
		for range visits {
			taken = append(slices.Clone(taken), Taken{0.6, []Power{{0, 1}, {1, 0.5}, {len(r.Factors), 0.1}}})
			r.Factors = append(r.Factors, Factor{SD: 1})
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
		_, _, varA, _, cov := fit.logOf([]Power{{a, 1}}, []Power{{b, 1}})
		near(t, fmt.Sprint("variance of ", a), varA, inverse.At(a, a), 2e-5)
		near(t, fmt.Sprint("covariance of ", pair), cov, inverse.At(a, b), 2e-5)
	}
}

// What the fit knows of its own readings: the levels are what it says of any, and
// what they have in common is known no worse than the gauge alone says.
func TestLevelsOfReadings(t *testing.T) {
	r := longHistory(5, 4)
	fit, k := r.Fit(Fit{}), 0
	fit.levels(func(y Reading, level, variance float64) {
		wantLevel, _ := fit.Level(y.Start, y.Taken)
		near(t, fmt.Sprint("level ", k), level, wantLevel, 1e-12)
		if variance > y.Gauge*y.Gauge || variance < 0.01*y.Gauge*y.Gauge {
			t.Errorf("reading %d: variance %g of a gauge's %g", k, variance, y.Gauge*y.Gauge)
		}
		k++
	})
	if k != len(r.Readings) {
		t.Errorf("%d levels of %d readings", k, len(r.Readings))
	}
}

// A part of unknown depth reads 10.9, and 6.9 after what takes 2.1, give or take
// half of its ln: a fall of 4.0, of which the first alone lets 2.1 be expected. It is
// off by ln(4.0/2.1)/0.5 = 1.3 standard deviations in the ln, by 4.0 - 2.1 over
// 0.5 times 2.1 = 1.8 in depth, and the first as far to the other side.
func TestDeviationsOfASteepFall(t *testing.T) {
	r := Rates{Factors: []Factor{{SD: 0.5}}, Starts: []Start{{10.9, 50}}, Readings: []Reading{
		{Level: 10.9, Gauge: 0.1, Hold: 4}, {Level: 6.9, Gauge: 0.1, Hold: 4, Taken: []Taken{{Amount: 2.1, Powers: []Power{{0, 1}}}}},
	}}
	off := r.Fit(Fit{}).Deviations()
	near(t, "the two", off[0], -off[1], 1e-3)
	if off[0] < 1 || off[0] > 2.5 {
		t.Errorf("off by %.2f standard deviations", off[0])
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

// logOf is the mean and the covariance of the logs of two products of factors.
func (f Fit) logOf(a, b []Power) (meanA, meanB, varA, varB, cov float64) {
	mean, all := f.Joint([]Form{{Powers: a}, {Powers: b}})
	return mean[0], mean[1], all[0][0], all[1][1], all[0][1]
}

// A gauge that reads off by b: two new parts of depth 8 +- 0.05 read 8.4 and 8.3
// to 0.1 each before anything is driven. b has the prior 0 +- 0.2, so by hand it
// is the weighted mean of 0 by 25 and of 0.4 and 0.3 by 80 each (1/(0.01 +
// 0.0025)): 56/185 = 0.3027 +- 185^-0.5. A level that the gauge reads 0.3027 too
// deep is less by that.
func TestOffsetOfAGauge(t *testing.T) {
	r := Rates{Starts: []Start{{0, 0.2}, {8, 0.05}, {8, 0.05}, {7, 50}}, Readings: []Reading{
		{Start: 1, Offset: 1, Level: 8.4, Gauge: 0.1}, {Start: 2, Offset: 1, Level: 8.3, Gauge: 0.1}, {Start: 3, Offset: 1, Level: 6, Gauge: 0.1},
	}}
	mean, cov := r.Fit(Fit{}).Joint([]Form{{Offset: 1}, {Level: &Ask{Start: 3}}, {Level: &Ask{Start: 3}, Offset: 1}})
	for i, c := range []struct{ got, want float64 }{
		{mean[0], 56.0 / 185}, {cov[0][0], 1.0 / 185}, {mean[1], 6 - 56.0/185}, {mean[2], 6},
		{cov[1][1], 0.01 + 1.0/185}, {cov[0][1], -1.0 / 185}, {cov[2][2], 0.01},
	} {
		if !scalar.EqualWithinAbs(c.got, c.want, 1e-5) {
			t.Errorf("figure %d: %.6f, want %.6f", i, c.got, c.want)
		}
	}
}

// A factor with a t distribution gives way where one figure is far out and not
// where it is near, as far as two scales, from where on its slope stays that of two,
// 5 * 2 / (4 + 4) / 0.15: its most likely value by a search along the line.
func TestHeavyTailedFactor(t *testing.T) {
	for _, wear := range []float64{1.2, 4} {
		r := Rates{Factors: []Factor{{SD: 0.15, Freedom: 4}}, Starts: []Start{{10, 1e-6}}, Readings: []Reading{
			{Level: 10 - wear, Gauge: 0.2, Taken: []Taken{{Amount: 1, Powers: []Power{{0, 1}}}}},
		}}
		got, _, _, _, _ := r.Fit(Fit{}).logOf([]Power{{0, 1}}, nil)
		best, least := 0.0, math.Inf(1)
		for x := -1.0; x < 2; x += 1e-5 {
			z, near := (wear-math.Exp(x))/0.2, math.Min(x, 2*0.15)
			if cost := z*z/2 + 2.5*math.Log(1+near*near/(4*0.15*0.15)) + 1.25*(x-near)/0.15; cost < least {
				best, least = x, cost
			}
		}
		if math.Abs(got-best) > 1e-4 {
			t.Errorf("worn %g: %.5f, want %.5f", wear, got, best)
		}
	}
}
