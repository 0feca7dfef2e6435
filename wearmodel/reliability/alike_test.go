package reliability

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// TestAnotherEightSchools: the effects of coaching in eight schools and their
// standard errors (Rubin, J. Educational Statistics 6, 1981; Gelman et al.,
// Bayesian Data Analysis, table 5.2). There, with a flat prior and normal schools,
// the mean's median is 8 with quartiles 5 and 11, and effects from school to school
// mostly differ by less than 10; from memory. A wide prior here comes near that.
func TestAnotherEightSchools(t *testing.T) {
	effects, errors := []float64{28, 8, -3, 7, -1, 1, 18, 12}, []float64{15, 10, 16, 11, 9, 11, 10, 18}
	var schools []Told
	for i := range effects {
		schools = append(schools, Told{effects[i], errors[i]})
	}
	got := Another(schools, 40)
	if math.Abs(got.Mean-8) > 1 || got.SD < 5 || got.SD > 14 {
		t.Errorf("%+v", got)
	}
}

// TestAnotherDrawn compares with draws from the prior, weighed by what the others
// say: the same belief worked out in another way.
func TestAnotherDrawn(t *testing.T) {
	const spread = 0.5
	random := rand.New(rand.NewPCG(5, 6))
	for _, others := range [][]Told{
		{{0.6, 0.1}},
		{{0.6, 0.1}, {0.5, 0.3}, {0.9, 0.2}},
		{{0.1, 0.2}, {0.2, 0.2}, {-0.1, 0.2}, {0, 0.2}, {2.5, 0.1}},
		{{-0.4, 0.4}, {0.4, 0.2}},
	} {
		var weight, mean, square float64
		for range 400_000 {
			mu, tau := spread/math.Sqrt2*random.NormFloat64(), spread/math.Sqrt(8)*math.Hypot(random.NormFloat64(), random.NormFloat64())
			w := 1.0
			for _, o := range others { // a car's factor is drawn inside its own readings' spread
				theta := o.Mean + o.SD*random.NormFloat64()
				w *= distuv.StudentsT{Mu: mu, Sigma: tau, Nu: 4}.Prob(theta)
			}
			weight, mean, square = weight+w, mean+w*mu, square+w*(mu*mu+2*tau*tau)
		}
		mean /= weight
		sd := math.Sqrt(square/weight - mean*mean)
		if got := Another(others, spread); math.Abs(got.Mean-mean) > 0.02 || math.Abs(got.SD-sd) > 0.02 {
			t.Errorf("%v: %+v, by drawing %.3f +- %.3f", others, got, mean, sd)
		}
	}
}

// TestAnotherBounds: nobody tells nothing; a wild one does not pull the others; more
// of the same narrows, and never below what they differ by.
func TestAnotherBounds(t *testing.T) {
	if got := Another(nil, 0.5); got != (Told{0, 0.5}) {
		t.Errorf("nobody: %+v", got)
	}
	if got := Another([]Told{{0.3, 1e6}}, 0.5); math.Abs(got.Mean) > 1e-3 || math.Abs(got.SD-0.5) > 0.01 {
		t.Errorf("one who knows nothing: %+v", got)
	}
	same := slices.Repeat([]Told{{0.4, 0.1}}, 6)
	honest := Another(same, 0.5)
	for _, wild := range []float64{-3, 3} {
		if got := Another(append(slices.Clone(same), Told{wild, 0.01}), 0.5); math.Abs(got.Mean-honest.Mean) > 0.05 {
			t.Errorf("with a wild one at %g: %+v, without %+v", wild, got, honest)
		}
	}
	before := 0.5
	for _, n := range []int{2, 4, 8, 16, 30} {
		var apart []Told
		for i := range n { // as quantiles of a normal of sd 0.25
			apart = append(apart, Told{0.25 * distuv.UnitNormal.Quantile((float64(i)+0.5)/float64(n)), 0.1})
		}
		got := Another(apart, 0.5)
		if got.SD >= before || got.SD < 0.2 {
			t.Errorf("%d that differ by 0.25: %+v, before %.3f", n, got, before)
		}
		before = got.SD
	}
}

func TestAlone(t *testing.T) {
	if got, ok := (Told{0.4, 0.3}).Alone(0.5); !ok || math.Abs(got.Mean-0.625) > 1e-9 || math.Abs(got.SD-0.375) > 1e-9 {
		t.Errorf("%+v, %t", got, ok) // 1/0.09-1/0.25 = 64/9; 0.4*(100/9)/(64/9) = 0.625
	}
	for _, sd := range []float64{0.5, 0.6, math.NaN()} {
		if got, ok := (Told{0.4, sd}).Alone(0.5); ok {
			t.Errorf("no narrower than the prior, and said: %+v", got)
		}
	}
}
