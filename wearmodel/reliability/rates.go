package reliability

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// Factor is what is believed of a number around 1 that multiplies wear: its
// logarithm is normal.
type Factor struct {
	Mean, SD float64 // of ln factor; SD above 0
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
	Level float64
	Gauge float64 // one standard deviation, above 0
	Taken []Taken
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
	cov   *mat.SymDense
}

// Limits of the search for the most likely point; it takes a handful of
// steps. Engineering choice.
const (
	mostSteps = 200
	closeStep = 1e-10 // in standard deviations of the prior
)

// Fit finds the most likely factors and starts, by Newton steps held back
// where they would not help (Levenberg and Marquardt).
func (r Rates) Fit() Fit {
	n := len(r.Factors) + len(r.Starts)
	x := make([]float64, 0, n)
	for _, f := range r.Factors {
		x = append(x, f.Mean)
	}
	for _, s := range r.Starts {
		x = append(x, s.Mean)
	}
	if n == 0 {
		return Fit{rates: r}
	}
	damp, cost := 1e-3, r.cost(x)
	var step mat.VecDense
	next := make([]float64, n)
	for range mostSteps {
		gradient, curvature := r.slopes(x, false)
		held := mat.NewSymDense(n, nil)
		held.CopySym(curvature)
		for i := range n {
			held.SetSym(i, i, curvature.At(i, i)*(1+damp))
		}
		var chol mat.Cholesky
		if !chol.Factorize(held) || chol.SolveVecTo(&step, gradient) != nil {
			damp *= 10
			continue
		}
		for i := range n {
			next[i] = x[i] - step.AtVec(i)
		}
		if c := r.cost(next); c <= cost && !math.IsNaN(c) {
			copy(x, next)
			damp, cost = max(damp/10, 1e-12), c
			if r.small(&step) {
				break
			}
		} else if damp *= 10; damp > 1e12 {
			break
		}
	}
	return Fit{rates: r, at: x, cov: r.covariance(x)}
}

// small says whether a step is nothing against the prior's spreads.
func (r Rates) small(step *mat.VecDense) bool {
	for i, f := range r.Factors {
		if math.Abs(step.AtVec(i)) > closeStep*f.SD {
			return false
		}
	}
	for i, s := range r.Starts {
		if math.Abs(step.AtVec(len(r.Factors)+i)) > closeStep*s.SD {
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
		z := (x[i] - f.Mean) / f.SD
		sum += float64(z * z / 2)
	}
	for i, s := range r.Starts {
		z := (x[len(r.Factors)+i] - s.Mean) / s.SD
		sum += float64(z * z / 2)
	}
	for _, y := range r.Readings {
		z := (y.Level - r.level(x, y.Start, y.Taken)) / y.Gauge
		sum += float64(z * z / 2)
	}
	return sum
}

// gradientOf fills g with the derivatives of a level.
func (r Rates) gradientOf(g, x []float64, start int, taken []Taken) {
	clear(g)
	g[len(r.Factors)+start] = 1
	for _, t := range taken {
		v := t.at(x)
		for _, p := range t.Powers {
			g[p.Factor] -= float64(p.Exponent * v)
		}
	}
}

// slopes are the gradient and the curvature of the cost. Without bend the
// curvature leaves out that of the levels themselves, and is always positive
// definite (Gauss and Newton).
func (r Rates) slopes(x []float64, bend bool) (*mat.VecDense, *mat.SymDense) {
	n := len(x)
	gradient, curvature := mat.NewVecDense(n, nil), mat.NewSymDense(n, nil)
	prior := func(i int, mean, sd float64) {
		gradient.SetVec(i, (x[i]-mean)/(sd*sd))
		curvature.SetSym(i, i, 1/(sd*sd))
	}
	for i, f := range r.Factors {
		prior(i, f.Mean, f.SD)
	}
	for i, s := range r.Starts {
		prior(len(r.Factors)+i, s.Mean, s.SD)
	}
	g := make([]float64, n)
	touched := make([]int, 0, n)
	for _, y := range r.Readings {
		r.gradientOf(g, x, y.Start, y.Taken)
		weight := 1 / (y.Gauge * y.Gauge)
		off := y.Level - r.level(x, y.Start, y.Taken)
		touched = touched[:0]
		for i, v := range g {
			if v != 0 {
				touched = append(touched, i)
				gradient.SetVec(i, gradient.AtVec(i)-float64(off*v*weight))
			}
		}
		for a, i := range touched {
			for _, j := range touched[a:] {
				curvature.SetSym(i, j, curvature.At(i, j)+float64(g[i]*g[j]*weight))
			}
		}
		if !bend {
			continue
		}
		for _, t := range y.Taken {
			v := off * weight * t.at(x)
			for a, p := range t.Powers {
				for _, q := range t.Powers[a:] {
					curvature.SetSym(p.Factor, q.Factor, curvature.At(p.Factor, q.Factor)+float64(v*p.Exponent*q.Exponent))
				}
			}
		}
	}
	return gradient, curvature
}

// covariance inverts the curvature at the most likely point.
func (r Rates) covariance(x []float64) *mat.SymDense {
	var chol mat.Cholesky
	for _, bend := range []bool{true, false} {
		_, curvature := r.slopes(x, bend)
		if !chol.Factorize(curvature) {
			continue
		}
		var cov mat.SymDense
		if chol.InverseTo(&cov) == nil {
			return &cov
		}
	}
	return mat.NewSymDense(len(x), nil) // not reached: without bend the prior alone makes it positive definite
}

// Log is the mean and the covariance of the logs of two products of factors.
func (f Fit) Log(a, b []Power) (meanA, meanB, varA, varB, cov float64) {
	for _, p := range a {
		meanA += float64(p.Exponent * f.at[p.Factor])
	}
	for _, q := range b {
		meanB += float64(q.Exponent * f.at[q.Factor])
	}
	both := func(a, b []Power) float64 {
		sum := 0.0
		for _, p := range a {
			for _, q := range b {
				sum += float64(p.Exponent * q.Exponent * f.cov.At(p.Factor, q.Factor))
			}
		}
		return sum
	}
	return meanA, meanB, both(a, a), both(b, b), both(a, b)
}

// Level predicts a level: its most likely value and its standard deviation to
// first order, without any gauge's error.
func (f Fit) Level(start int, taken []Taken) (level, sd float64) {
	g := make([]float64, len(f.at))
	f.rates.gradientOf(g, f.at, start, taken)
	v := mat.NewVecDense(len(g), g)
	return f.rates.level(f.at, start, taken), math.Sqrt(max(0, mat.Inner(v, f.cov, v)))
}

// Deviation is how far a reading lies from what the fit expects of it without
// the reading itself, in standard deviations (the studentised residual).
func (f Fit) Deviation(reading int) float64 {
	y := f.rates.Readings[reading]
	level, sd := f.Level(y.Start, y.Taken)
	own := 1 - sd*sd/(y.Gauge*y.Gauge) // the share of the reading's error that the fit did not take in
	return (y.Level - level) / (y.Gauge * math.Sqrt(max(own, 1e-6)))
}

// Scatter is the sum of the squared errors of the readings in gauge errors,
// and how many of them the fit has not used up.
func (f Fit) Scatter() (chi2, free float64) {
	for _, y := range f.rates.Readings {
		level, sd := f.Level(y.Start, y.Taken)
		z := (y.Level - level) / y.Gauge
		chi2 += float64(z * z)
		free += 1 - sd*sd/(y.Gauge*y.Gauge)
	}
	return chi2, max(0, free)
}

// Ask is a level to be predicted.
type Ask struct {
	Start int
	Taken []Taken
}

// Predict draws levels from what is believed after the fit, without any
// gauge's error: by ask, one for every draw. Asks share the draws. normal
// gives standard normal numbers.
func (f Fit) Predict(asks []Ask, draws int, normal func() float64) [][]float64 {
	out := make([][]float64, len(asks))
	for i := range out {
		out[i] = make([]float64, draws)
	}
	n := len(f.at)
	var chol mat.Cholesky
	if n == 0 || !chol.Factorize(f.cov) {
		return out
	}
	var lower mat.TriDense
	chol.LTo(&lower)
	z, x := mat.NewVecDense(n, nil), mat.NewVecDense(n, nil)
	at := make([]float64, n)
	for k := range draws {
		for i := range n {
			z.SetVec(i, normal())
		}
		x.MulVec(&lower, z)
		for i := range n {
			at[i] = f.at[i] + x.AtVec(i)
		}
		for i, a := range asks {
			out[i][k] = f.rates.level(at, a.Start, a.Taken)
		}
	}
	return out
}
