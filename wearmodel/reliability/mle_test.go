package reliability

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
)

// censored is a life test: units that failed, and units still good.
type censored struct{ failed, good []float64 }

// likelihood is the log likelihood of a Weibull distribution.
func (c censored) likelihood(w Weibull) float64 {
	sum := 0.0
	for _, t := range c.failed {
		sum += math.Log(w.Shape/w.Scale) + (w.Shape-1)*math.Log(t/w.Scale) - w.Hazard(t)
	}
	for _, t := range c.good {
		sum -= w.Hazard(t)
	}
	return sum
}

// mostLikely is the Weibull distribution that makes the test most likely, by
// bisection of the equation for the shape alone.
func (c censored) mostLikely() Weibull {
	all := append(append([]float64{}, c.failed...), c.good...)
	meanLog := 0.0
	for _, t := range c.failed {
		meanLog += math.Log(t) / float64(len(c.failed))
	}
	powers := func(shape float64) (sum, logSum float64) {
		for _, t := range all {
			p := math.Pow(t, shape)
			sum, logSum = sum+p, logSum+p*math.Log(t)
		}
		return sum, logSum
	}
	lo, hi := 0.05, 50.0
	for range 200 {
		shape := (lo + hi) / 2
		if s, l := powers(shape); l/s-1/shape-meanLog > 0 {
			hi = shape
		} else {
			lo = shape
		}
	}
	s, _ := powers(lo)
	return Weibull{lo, math.Pow(s/float64(len(c.failed)), 1/lo)}
}

// scaleAlone is the scale that Scale finds most likely at a known shape, with
// a prior that says next to nothing.
func (c censored) scaleAlone(shape, unit float64) float64 {
	s := NewScale(Prior{Shape: shape, Weights: []float64{1}, Means: []float64{0}, SDs: []float64{1e6}})
	for _, t := range c.failed {
		s = s.Failed(t / unit)
	}
	for _, t := range c.good {
		s = s.Good(t / unit)
	}
	best, at := math.Inf(-1), 0
	for i, l := range s.log {
		if l > best {
			best, at = l, i
		}
	}
	return math.Exp(s.at[at]) * unit
}

// Published life tests with units still good at the end: the likelihood that
// Scale hears is the one that gives the published fit.
func TestPublishedLifeTests(t *testing.T) {
	tenGood := make([]float64, 10)
	for i := range tenGood {
		tenGood[i] = 500
	}
	for _, c := range []struct {
		source       string
		test         censored
		shape, scale float64
		relative     float64
		likelihood   float64
	}{
		{
			"NIST/SEMATECH e-Handbook of Statistical Methods, 8.4.1",
			censored{[]float64{54, 187, 216, 240, 244, 335, 361, 373, 375, 386}, tenGood}, 1.7208, 606.53, 2e-4, -75.135,
		},
		{
			"Abernethy, The New Weibull Handbook, C.5",
			censored{[]float64{1500, 2250, 4000, 4300, 7000}, []float64{1750, 5000}}, 2.257, 4900.1, 5e-4, math.NaN(),
		},
	} {
		w := c.test.mostLikely()
		if !scalar.EqualWithinRel(w.Shape, c.shape, c.relative) || !scalar.EqualWithinRel(w.Scale, c.scale, c.relative) {
			t.Errorf("%s: shape %.4f scale %.2f, want %.4f and %.2f", c.source, w.Shape, w.Scale, c.shape, c.scale)
		}
		if l := c.test.likelihood(w); !math.IsNaN(c.likelihood) && !scalar.EqualWithinAbs(l, c.likelihood, 5e-4) {
			t.Errorf("%s: log likelihood %.4f, want %.3f", c.source, l, c.likelihood)
		}
		// The grid's step is 0.45 %.
		if got := c.test.scaleAlone(w.Shape, c.scale); !scalar.EqualWithinRel(got, c.scale, gridStep) {
			t.Errorf("%s: Scale's most likely scale %.2f, want %.2f", c.source, got, c.scale)
		}
	}
}
