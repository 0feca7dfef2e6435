package reliability

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// root is a vector by which inner products are covariances of the linear
// forms whose gradients went in.
func (f Fit) root(g []float64) []float64 {
	v := f.shape.placed(g)
	f.lower.forward(v)
	return v
}

// Log is the mean and the covariance of the logs of two products of factors.
func (f Fit) Log(a, b []Power) (meanA, meanB, varA, varB, cov float64) {
	side := func(powers []Power) (mean float64, root []float64) {
		g := make([]float64, len(f.at))
		for _, p := range powers {
			mean += float64(p.Exponent * f.at[p.Factor])
			g[p.Factor] += p.Exponent
		}
		return mean, f.root(g)
	}
	meanA, rootA := side(a)
	meanB, rootB := side(b)
	return meanA, meanB, dot(rootA, rootA), dot(rootB, rootB), dot(rootA, rootB)
}

// Level predicts a level: its most likely value and its standard deviation to
// first order, without any gauge's error.
func (f Fit) Level(start int, taken []Taken) (level, sd float64) {
	g := make([]float64, len(f.at))
	f.rates.gradientOf(g, f.at, start, taken)
	v := f.root(g)
	return f.rates.level(f.at, start, taken), math.Sqrt(dot(v, v))
}

// levels are Level's for every reading, of which the fit knows already what
// they have in common.
func (f Fit) levels(each func(y Reading, level, variance float64)) {
	g := make([]float64, len(f.at))
	for k, y := range f.rates.Readings {
		f.rates.gradientOf(g, f.at, y.Start, y.Taken)
		variance := 0.0
		for _, i := range f.shape.touched[k] {
			for _, j := range f.shape.touched[k] {
				variance += float64(g[i] * g[j] * *f.near.cell(f.shape.place[i], f.shape.place[j]))
			}
		}
		for _, i := range f.shape.touched[k] {
			g[i] = 0
		}
		each(y, f.rates.level(f.at, y.Start, y.Taken), max(0, variance))
	}
}

// Deviations are how far the readings lie from what the fit expects of each
// without the reading itself, in standard deviations (studentised residuals).
func (f Fit) Deviations() []float64 {
	var out []float64
	f.levels(func(y Reading, level, variance float64) {
		own := 1 - variance/(y.Gauge*y.Gauge) // the share of the reading's error that the fit did not take in
		if y.held(level) {
			own = 1 + variance/(y.Gauge*y.Gauge) // it took in none
		}
		out = append(out, (y.Level-level)/(y.Gauge*math.Sqrt(max(own, 1e-6))))
	})
	return out
}

// held says whether a reading lies so far from a level that it pulls no harder.
func (y Reading) held(level float64) bool {
	_, _, curvature := y.misfit(level)
	return curvature == 0
}

// Scatter is the sum of the squared errors of the readings in gauge errors,
// and how many of them the fit has not used up. Those that are held do not
// count.
func (f Fit) Scatter() (chi2, free float64) {
	f.levels(func(y Reading, level, variance float64) {
		if y.held(level) {
			return
		}
		z := (y.Level - level) / y.Gauge
		chi2 += float64(z * z)
		free += 1 - variance/(y.Gauge*y.Gauge)
	})
	return chi2, max(0, free)
}

// Ask is a level to be predicted.
type Ask struct {
	Start int
	Taken []Taken
}

// drawnWhole is how many factors and starts are drawn together whether they
// are asked for or not; of more, only those that are. Either way the draws
// have the same distribution.
const drawnWhole = 250

// Predict draws levels from what is believed after the fit, without any
// gauge's error: by ask, one for every draw. Asks share the draws. normal
// gives standard normal numbers.
func (f Fit) Predict(asks []Ask, draws int, normal func() float64) [][]float64 {
	out := make([][]float64, len(asks))
	for i := range out {
		out[i] = make([]float64, draws)
	}
	drawn := f.drawn(asks)
	n := len(drawn)
	if n == 0 {
		return out
	}
	cov, column, unit := mat.NewSymDense(n, nil), make([]float64, len(f.at)), make([]float64, len(f.at))
	for a, i := range drawn {
		unit[i] = 1
		f.shape.solve(f.lower, column, unit)
		unit[i] = 0
		for b := range a + 1 {
			cov.SetSym(a, b, column[drawn[b]])
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(cov) {
		return out
	}
	var lower mat.TriDense
	chol.LTo(&lower)
	z, x := mat.NewVecDense(n, nil), mat.NewVecDense(n, nil)
	at := slices.Clone(f.at)
	for k := range draws {
		for i := range n {
			z.SetVec(i, normal())
		}
		x.MulVec(&lower, z)
		for a, i := range drawn {
			at[i] = f.at[i] + x.AtVec(a)
		}
		for i, a := range asks {
			out[i][k] = f.rates.level(at, a.Start, a.Taken)
		}
	}
	return out
}

// drawn lists the factors and starts to draw for some asks.
func (f Fit) drawn(asks []Ask) []int {
	asked := make([]bool, len(f.at))
	for _, a := range asks {
		asked[len(f.rates.Factors)+a.Start] = true
		for _, t := range a.Taken {
			for _, p := range t.Powers {
				asked[p.Factor] = true
			}
		}
	}
	var out []int
	for i := range asked {
		if asked[i] || len(asked) <= drawnWhole {
			out = append(out, i)
		}
	}
	return out
}
