package reliability

import (
	"math"
)

// Factor is what is believed of a number around 1 that multiplies wear: its
// logarithm is normal, or has Student's t distribution, which allows a few that
// lie far out.
type Factor struct {
	Mean, SD float64 // of ln factor; SD above 0, the scale of a t distribution
	Freedom  float64 // degrees of freedom of a t distribution; 0 where it is normal
	// After is the factor, by its index and 1, from which this one is a step of a
	// random walk: Mean and SD are of the step. 0: none.
	After int
}

// misfit is what a factor adds to the cost at a value of its log, its slope and
// its curvature. That of a t distribution is the weight by which its value is
// found (Lange, Little and Taylor, JASA 84, 1989), which is never negative. Above
// where it is the steepest its slope stays: more wear than that, put down to one
// visit alone, would say less of the rate the more it is.
func (f Factor) misfit(x float64) (cost, slope, curvature float64) {
	z := (x - f.Mean) / f.SD
	if f.Freedom == 0 {
		return z * z / 2, z / f.SD, 1 / (f.SD * f.SD)
	}
	near := min(z, math.Sqrt(f.Freedom))
	weight := (f.Freedom + 1) / (f.Freedom + float64(near*near))
	cost = float64((f.Freedom+1)/2*math.Log1p(near*near/f.Freedom)) + float64(weight*near*(z-near))
	if z == 0 {
		return cost, 0, weight / (f.SD * f.SD)
	}
	return cost, weight * near / f.SD, weight * (near / z) / (f.SD * f.SD)
}

// step is the log that a factor's prior is of, at a point.
func (f Factor) step(x []float64, i int) float64 {
	if f.After > 0 {
		return x[i] - x[f.After-1]
	}
	return x[i]
}

// bend is the second derivative of what a factor adds to the cost.
func (f Factor) bend(x float64) float64 {
	z := (x - f.Mean) / f.SD
	if f.Freedom == 0 {
		return 1 / (f.SD * f.SD)
	}
	if z > math.Sqrt(f.Freedom) {
		return 0
	}
	far := f.Freedom + float64(z*z)
	return (f.Freedom + 1) * (f.Freedom - float64(z*z)) / (far * far) / (f.SD * f.SD)
}

// Start is what is believed of a level before any of the wear that is
// followed: normal, in the unit of the levels.
type Start struct {
	Mean, SD float64 // SD above 0
}

// Power is a factor, by its index, and the exponent it comes with.
type Power struct {
	Factor   int
	Exponent float64
}

// Taken is what some driving takes from a level by the model (0 or more, in
// the unit of the levels), and the factors it is multiplied by.
type Taken struct {
	Amount float64
	Powers []Power
}

// Reading is a level as it was read: a start less all that was taken since.
// Its error is the gauge's; readings' differences are not used.
type Reading struct {
	Start int // by its index
	// Offset is the start that is added to the level, by its index and 1: how far
	// off the gauge reads. 0: none.
	Offset int
	Level  float64
	Gauge  float64 // one standard deviation, above 0
	Taken  []Taken
	// Hold bounds how hard a level pulls: read further than so many of the gauge's
	// errors from what is expected it pulls no harder, and narrows nothing (Huber's
	// loss, 1964). 0: no bound.
	Hold float64
}

// misfit is what a reading adds to the cost at an expected level, its slope by
// the reading and its curvature.
func (y Reading) misfit(level float64) (cost, slope, curvature float64) {
	z := (y.Level - level) / y.Gauge
	if far := math.Abs(z); y.Hold > 0 && far > y.Hold {
		return y.Hold * (far - float64(y.Hold/2)), math.Copysign(y.Hold, z) / y.Gauge, 0
	}
	return z * z / 2, z / y.Gauge, 1 / (y.Gauge * y.Gauge)
}

// Rates is all that is known of some levels that wear at rates known only to
// a factor: the believed factors and starts, and the readings.
type Rates struct {
	Factors  []Factor
	Starts   []Start
	Readings []Reading
}

// Fit is what is believed after the readings: a normal distribution of the
// logs of the factors and of the starts (Laplace's approximation at the most
// likely point). Rates stay positive by construction, and a factor that no
// reading touches keeps its prior exactly.
type Fit struct {
	rates Rates
	at    []float64 // ln factors, then starts
	shape shape
	lower skyline // factor of the curvature, whose inverse is the covariance
	near  skyline // the covariance of what a reading has in common
}

// Limits of the search for the most likely point; it takes a handful of
// steps. Engineering choice.
const (
	mostSteps = 200
	closeStep = 1e-9 // in standard deviations of the prior
)

// Fit finds the most likely factors and starts, by Newton steps held back
// where they would not help (Levenberg and Marquardt). It takes time with the
// readings, and with the square of the factors that overlap: those of which
// neither has had its last reading before the other has its first. near is a
// fit of the same factors and starts, or of the first of each, by much the same
// readings to begin with, or the zero Fit.
func (r Rates) Fit(near Fit) Fit {
	n := len(r.Factors) + len(r.Starts)
	if n == 0 {
		return Fit{rates: r}
	}
	x := make([]float64, 0, n)
	for _, f := range r.Factors {
		x = append(x, f.Mean)
	}
	for _, s := range r.Starts {
		x = append(x, s.Mean)
	}
	factors := len(near.rates.Factors)
	copy(x[:len(r.Factors)], near.at[:factors])
	copy(x[len(r.Factors):], near.at[factors:])
	s := r.shape()
	damp, cost := 1e-3, r.cost(x)
	next, step := make([]float64, n), make([]float64, n)
	for range mostSteps {
		gradient, lower, ok := r.downhill(x, s, 1+damp)
		if !ok {
			damp *= 10
			continue
		}
		s.solve(lower, step, gradient)
		for i := range n {
			next[i] = x[i] - step[i]
		}
		if c := r.cost(next); c <= cost && !math.IsNaN(c) {
			copy(x, next)
			damp, cost = max(damp/10, 1e-12), c
			if r.small(step) {
				break
			}
		} else if damp *= 10; damp > 1e12 {
			break
		}
	}
	f := Fit{rates: r, at: x, shape: s, lower: r.precision(x, s, bent)}
	f.near = f.lower.inverse()
	return f
}

// downhill is the gradient with the factor of a curvature that leads downhill, the
// one that leads there fastest.
func (r Rates) downhill(x []float64, s shape, lift float64) (gradient []float64, lower skyline, ok bool) {
	for _, as := range []curving{exact, bent, straight} {
		var curvature skyline
		gradient, curvature = r.slopes(x, s, as)
		if lower, ok = curvature.factorize(lift); ok {
			break
		}
	}
	return gradient, lower, ok
}

// small says whether a step is nothing against the prior's spreads.
func (r Rates) small(step []float64) bool {
	for i, f := range r.Factors {
		if math.Abs(step[i]) > closeStep*f.SD {
			return false
		}
	}
	for i, s := range r.Starts {
		if math.Abs(step[len(r.Factors)+i]) > closeStep*s.SD {
			return false
		}
	}
	return true
}

// level is a start less what was taken, at a point.
func (r Rates) level(x []float64, start int, taken []Taken) float64 {
	v := x[len(r.Factors)+start]
	for _, t := range taken {
		v -= t.at(x)
	}
	return v
}

// reads is the level that a gauge with its offset would read.
func (r Rates) reads(x []float64, y Reading) float64 {
	v := r.level(x, y.Start, y.Taken)
	if y.Offset > 0 {
		v += x[len(r.Factors)+y.Offset-1]
	}
	return v
}

// at is what was taken, with its factors.
func (t Taken) at(x []float64) float64 {
	e := 0.0
	for _, p := range t.Powers {
		e += float64(p.Exponent * x[p.Factor])
	}
	return t.Amount * math.Exp(e)
}

// cost is minus the log of the posterior density, up to a constant.
func (r Rates) cost(x []float64) float64 {
	sum := 0.0
	for i, f := range r.Factors {
		cost, _, _ := f.misfit(f.step(x, i))
		sum += cost
	}
	for i, s := range r.Starts {
		z := (x[len(r.Factors)+i] - s.Mean) / s.SD
		sum += float64(z * z / 2)
	}
	for _, y := range r.Readings {
		cost, _, _ := y.misfit(r.reads(x, y))
		sum += cost
	}
	return sum
}

// gradientOf adds the derivatives of a level to g.
func (r Rates) gradientOf(g, x []float64, start int, taken []Taken) {
	g[len(r.Factors)+start]++
	for _, t := range taken {
		v := t.at(x)
		for _, p := range t.Powers {
			g[p.Factor] -= float64(p.Exponent * v)
		}
	}
}

// gradientAt adds the derivatives of what a gauge would read.
func (r Rates) gradientAt(g, x []float64, y Reading) {
	r.gradientOf(g, x, y.Start, y.Taken)
	if y.Offset > 0 {
		g[len(r.Factors)+y.Offset-1]++
	}
}

// curving is how the curvature of the cost is taken.
type curving int

const (
	straight curving = iota // without that of the levels themselves: always positive definite (Gauss and Newton)
	bent                    // with it, and of heavy tails by the weight of their values
	exact                   // as it is, which leads to the most likely point the fastest
)

// slopes are the gradient and the curvature of the cost.
func (r Rates) slopes(x []float64, s shape, as curving) ([]float64, skyline) {
	gradient, curvature := make([]float64, len(x)), newSkyline(s.first)
	prior := func(i int, f Factor) {
		_, slope, bend := f.misfit(f.step(x, i))
		if as == exact {
			bend = f.bend(f.step(x, i))
		}
		gradient[i] += slope
		*curvature.cell(s.place[i], s.place[i]) += bend
		if from := f.After - 1; from >= 0 {
			gradient[from] -= slope
			*curvature.cell(s.place[from], s.place[from]) += bend
			*curvature.cell(s.place[i], s.place[from]) -= bend
		}
	}
	for i, f := range r.Factors {
		prior(i, f)
	}
	for i, t := range r.Starts {
		prior(len(r.Factors)+i, Factor{Mean: t.Mean, SD: t.SD})
	}
	g := make([]float64, len(x))
	for k, y := range r.Readings {
		r.gradientAt(g, x, y)
		_, slope, weight := y.misfit(r.reads(x, y))
		touched := s.touched[k]
		for a, i := range touched {
			gradient[i] -= float64(slope * g[i])
			for _, j := range touched[a:] {
				*curvature.cell(s.place[i], s.place[j]) += float64(g[i] * g[j] * weight)
			}
		}
		for _, i := range touched {
			g[i] = 0
		}
		if as == straight {
			continue
		}
		for _, t := range y.Taken {
			v := slope * t.at(x)
			for a, p := range t.Powers {
				for _, q := range t.Powers[a:] {
					*curvature.cell(s.place[p.Factor], s.place[q.Factor]) += float64(v * p.Exponent * q.Exponent)
				}
			}
		}
	}
	return gradient, curvature
}

// precision is the factor of the curvature at the most likely point.
func (r Rates) precision(x []float64, s shape, as curving) skyline {
	_, curvature := r.slopes(x, s, as)
	lower, ok := curvature.factorize(1)
	if !ok {
		_, curvature = r.slopes(x, s, straight) // the prior alone makes it positive definite
		lower, _ = curvature.factorize(1)
	}
	return lower
}
