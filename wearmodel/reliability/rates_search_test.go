package reliability

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
)

// A reading says that 20 were taken where the model says 1, with a prior that
// hardly minds: the first Newton step goes to a factor of e^19 and is not
// taken. The point that is found is one where the slope vanishes:
// x/4 = e A / 0.01, with A = exp(x) taken and the reading e below the level.
func TestOvershoot(t *testing.T) {
	r := Rates{Factors: []Factor{{SD: 2}}, Starts: []Start{{30, 1e-7}}, Readings: []Reading{
		{Level: 10, Gauge: 0.1, Taken: []Taken{{1, []Power{{0, 1}}}}},
	}}
	x, _, _, _, _ := r.Fit(Fit{}).logOf([]Power{{0, 1}}, nil)
	taken := math.Exp(x)
	if slope := x/4 - (20-taken)*taken/0.01; math.Abs(slope) > 1e-3 || math.Abs(taken-20) > 0.01 {
		t.Errorf("%.6f taken, slope %g", taken, slope)
	}
}

// Starts that are searched for while the factors are as believed, and the
// other way round: the search ends where both rest.
func TestBothHaveToRest(t *testing.T) {
	// The factor touches nothing that was read, the start is moved.
	r := Rates{Factors: []Factor{{SD: 0.2}}, Starts: []Start{{8, 0.3}}, Readings: []Reading{{Level: 7.8, Gauge: 0.15}}}
	level, _ := r.Fit(Fit{}).Level(0, nil)
	if !scalar.EqualWithinAbs(level, 7.84, 1e-9) {
		t.Errorf("start %.9f, want 7.84", level)
	}
	// The start is known, the factor is moved: 4 f less was read as 5 less.
	r = Rates{Factors: []Factor{{SD: 0.2}}, Starts: []Start{{0, 1e-7}}, Readings: []Reading{
		{Level: -5, Gauge: 0.5, Taken: []Taken{{4, []Power{{0, 1}}}}},
	}}
	x, _, _, _, _ := r.Fit(Fit{}).logOf([]Power{{0, 1}}, nil)
	taken := 4 * math.Exp(x)
	if slope := x/0.04 - (5-taken)*taken/0.25; math.Abs(slope) > 1e-8 {
		t.Errorf("slope %g at a factor of %.6f", slope, math.Exp(x))
	}
}

// A reading's deviation is that from the other evidence, here the start alone:
// (7.8 - 8) / sqrt(0.3^2 + 0.15^2) = -0.596285. Its error in gauge errors from
// the weighted mean of 7.84 is (0.04 / 0.15)^2 = 0.0711111; the fit's variance
// of 0.018 leaves 1 - 0.018/0.0225 = 0.2 of the reading free. By hand.
func TestDeviationAndScatter(t *testing.T) {
	fit := Rates{Starts: []Start{{8, 0.3}}, Readings: []Reading{{Level: 7.8, Gauge: 0.15}}}.Fit(Fit{})
	near(t, "deviation", fit.Deviations()[0], -0.596285, 1e-6)
	chi2, free := fit.Scatter()
	near(t, "squared errors", chi2, 0.0711111, 1e-5)
	near(t, "left free", free, 0.2, 1e-9)
}

// Without readings a product of powers of independent factors has the mean and
// the covariance of the textbook. Of a^2 b^3 and a^0.5 b^-1, with ln a ~ (0.1,
// 0.2) and ln b ~ (-0.2, 0.3): means 0.2 - 0.6 and 0.05 + 0.2, variances 0.16 +
// 0.81 and 0.01 + 0.09, covariance 0.04 - 0.27.
func TestPowersOfFactors(t *testing.T) {
	fit := Rates{Factors: []Factor{{Mean: 0.1, SD: 0.2}, {Mean: -0.2, SD: 0.3}}}.Fit(Fit{})
	meanA, meanB, varA, varB, cov := fit.logOf([]Power{{0, 2}, {1, 3}}, []Power{{0, 0.5}, {1, -1}})
	for i, pair := range [][2]float64{{meanA, -0.4}, {meanB, 0.25}, {varA, 0.97}, {varB, 0.1}, {cov, -0.23}} {
		if !scalar.EqualWithinAbs(pair[0], pair[1], 1e-12) {
			t.Errorf("figure %d: %g, want %g", i, pair[0], pair[1])
		}
	}
}

// A level read far from the others pulls by so many gauge errors at most (Huber's
// location estimate, Annals of Mathematical Statistics 35, 1964): of 8, 8, 8 and
// anything below 2.67, held at 4, three times 8 - m is 4, and the same above. A
// worse one never pulls less. By hand.
func TestHeld(t *testing.T) {
	fit := func(last float64) Fit {
		r := Rates{Starts: []Start{{8, 1e6}}}
		for _, level := range []float64{8, 8, 8, last} {
			r.Readings = append(r.Readings, Reading{Level: level, Gauge: 1, Hold: 4})
		}
		return r.Fit(Fit{})
	}
	before := math.Inf(1)
	for _, c := range []struct{ last, want float64 }{{108, 8 + 4.0/3}, {9, 8.25}, {4, 7}, {3, 6.75}, {2, 8 - 4.0/3}, {-100, 8 - 4.0/3}} {
		level, sd := fit(c.last).Level(0, nil)
		near(t, "level", level, c.want, 1e-6)
		want := 0.5
		if math.Abs(c.last-8) > 16.0/3 {
			want = math.Sqrt(1.0 / 3) // it narrows nothing
		}
		near(t, "standard deviation", sd, want, 1e-6)
		if level > before+1e-9 {
			t.Errorf("with %g the level is %g, with a better reading %g", c.last, level, before)
		}
		before = level
	}
	chi2, free := fit(-100).Scatter()
	near(t, "squared errors", chi2, 3*16.0/9, 1e-6)
	near(t, "left free", free, 2, 1e-6)
	near(t, "deviation", fit(-100).Deviations()[3], (-108+4.0/3)/math.Sqrt(1+1.0/3), 1e-6)
}
