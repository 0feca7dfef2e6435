package reliability

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

// smallest is below anything that is measured: rounding near the end of
// float64's range is not an error.
const smallest = 1e-200

// near fails unless got is within a relative tolerance of want.
func near(t interface{ Errorf(string, ...any) }, what string, got, want, tol float64) {
	if math.IsNaN(got) || math.Abs(got-want) > tol*math.Abs(want)+smallest {
		t.Errorf("%s = %.6g, want %.6g within %g of it", what, got, want, tol)
	}
}

// ISO 281 tables of a1, the life at a reliability over L10. Two digits.
func TestLifeAtReliability(t *testing.T) {
	catalogue := Weibull{Shape: 1.5, Scale: CatalogueScale(1.5)}
	for _, c := range []struct{ reliability, a1990, a2007 float64 }{
		{0.90, 1, 1},
		{0.95, 0.62, 0.64},
		{0.96, 0.53, 0.55},
		{0.97, 0.44, 0.47},
		{0.98, 0.33, 0.37},
		{0.99, 0.21, 0.25},
	} {
		life := catalogue.Remaining(0, 1-c.reliability)
		// ISO 281:1990, table of a1: the Weibull distribution itself.
		if math.Abs(life-c.a1990) > 0.0051 {
			t.Errorf("life at %v: %.4f, want %v", c.reliability, life, c.a1990)
		}
		// ISO 281:2007, table of a1: the same with a minimum life of 0.05.
		if least := 0.05 + 0.95*life; math.Abs(least-c.a2007) > 0.0051 {
			t.Errorf("life at %v: %.4f with a minimum, want %v", c.reliability, least, c.a2007)
		}
	}
}

// ISO 281: one in ten fails by L10.
func TestCatalogueScale(t *testing.T) {
	near(t, "scale", CatalogueScale(1.5), 4.4828, 1e-5)
	near(t, "survival at L10", Weibull{1.5, CatalogueScale(1.5)}.Survive(1), 0.9, 1e-12)
}

// gonum's distribution is the independent reference.
func TestWeibullAgainstGonum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := Weibull{
			Shape: rapid.Float64Range(0.5, 4).Draw(t, "shape"),
			Scale: rapid.Float64Range(0.01, 100).Draw(t, "scale"),
		}
		age := w.Scale * rapid.Float64Range(0, 3).Draw(t, "age")
		u := rapid.Float64Range(0, 0.999).Draw(t, "u")
		ref := distuv.Weibull{K: w.Shape, Lambda: w.Scale}
		near(t, "survival", w.Survive(age), ref.Survival(age), 1e-9)

		left := w.Remaining(age, u)
		if left < 0 {
			t.Fatalf("life left %v", left)
		}
		want := ref.LogSurvival(age) + math.Log1p(-u)
		if got := ref.LogSurvival(age + left); math.Abs(got-want) > 1e-9*(1+math.Abs(want)) {
			t.Errorf("log survival %v at the life left, want %v", got, want)
		}
	})
}

// An old bearing's life left is not lost to rounding: at a shape of 1 a
// Weibull life has no memory.
func TestRemainingKeepsDigits(t *testing.T) {
	w := Weibull{Shape: 1, Scale: 1}
	near(t, "life left", w.Remaining(1e8, 1e-9), 1e-9, 1e-6)
}

// Weibull is the two-parameter distribution of lives.
type Weibull struct {
	Shape float64 // dimensionless, above 0; 1.5 is ISO 281's for bearings
	Scale float64 // the life that 36.8 % reach
}

// Hazard, Survive and Remaining are the closed forms that the beliefs over
// scales are compared with. Hazard is the cumulative hazard at an age: minus the log of Survive.
func (w Weibull) Hazard(age float64) float64 {
	return math.Pow(math.Max(0, age)/w.Scale, w.Shape)
}

// Survive is the probability of reaching an age.
func (w Weibull) Survive(age float64) float64 { return math.Exp(-w.Hazard(age)) }

// Remaining is the life left at an age that a share u (0 to below 1) of those
// good at that age do not reach.
func (w Weibull) Remaining(age, u float64) float64 {
	spent, more := w.Hazard(age), -math.Log1p(-u)
	if more >= spent {
		return math.Max(0, float64(w.Scale*math.Pow(spent+more, 1/w.Shape))-math.Max(0, age))
	}
	// The plain difference would cancel when little life is left.
	return age * math.Expm1(math.Log1p(more/spent)/w.Shape)
}
