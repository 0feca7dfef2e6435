package reliability

import "math"

// root is a vector by which inner products are covariances of the linear
// forms whose gradients went in.
func (f Fit) root(g []float64) []float64 {
	v := f.shape.placed(g)
	f.lower.forward(v)
	return v
}

// Of is the mean and the variance of the log of a factor.
func (f Fit) Of(factor int) (mean, variance float64) {
	at := f.shape.place[factor]
	return f.at[factor], *f.near.cell(at, at)
}

// Step is that of the step by which a factor of a random walk differs from the
// one before; of the first, from 0.
func (f Fit) Step(factor int) (mean, variance float64) {
	from := f.rates.Factors[factor].After - 1
	if mean, variance = f.Of(factor); from < 0 {
		return mean, variance
	}
	before, other := f.Of(from)
	both := *f.near.cell(f.shape.place[factor], f.shape.place[from])
	return mean - before, max(0, variance+other-float64(2*both))
}

// Form is something that is believed after a fit: the log of a product of
// factors, a level, or both together.
type Form struct {
	Powers []Power
	Level  *Ask
	Offset int // the start added to the level, as a Reading's
}

// Joint is the mean of some forms, and their covariance to first order.
func (f Fit) Joint(forms []Form) (mean []float64, cov [][]float64) {
	roots := make([][]float64, len(forms))
	for i, form := range forms {
		g, at := make([]float64, len(f.at)), 0.0
		for _, p := range form.Powers {
			at += float64(p.Exponent * f.at[p.Factor])
			g[p.Factor] += p.Exponent
		}
		y := Reading{Offset: form.Offset}
		if form.Level != nil {
			y.Start, y.Taken = form.Level.Start, form.Level.Taken
			at += f.rates.reads(f.at, y)
			f.rates.gradientAt(g, f.at, y)
		} else if y.Offset > 0 {
			at += f.at[len(f.rates.Factors)+y.Offset-1]
			g[len(f.rates.Factors)+y.Offset-1]++
		}
		roots[i], mean = f.root(g), append(mean, at)
	}
	cov = make([][]float64, len(forms))
	for i := range cov {
		cov[i] = make([]float64, len(forms))
		for j := range i + 1 {
			cov[i][j] = dot(roots[i], roots[j])
			cov[j][i] = cov[i][j]
		}
	}
	return mean, cov
}

// Level predicts a level: its most likely value and its standard deviation to
// first order, without any gauge's error.
func (f Fit) Level(start int, taken []Taken) (level, sd float64) {
	g := make([]float64, len(f.at))
	f.rates.gradientOf(g, f.at, start, taken)
	v := f.root(g)
	return f.rates.level(f.at, start, taken), math.Sqrt(dot(v, v))
}

// levels are Level's for every reading. Their variances are by the curvature
// without that of the levels themselves, so that none is more than the reading's.
func (f Fit) levels(each func(y Reading, level, variance float64)) {
	g := make([]float64, len(f.at))
	near := f.rates.precision(f.at, f.shape, straight).inverse()
	for k, y := range f.rates.Readings {
		f.rates.gradientAt(g, f.at, y)
		variance := 0.0
		for _, i := range f.shape.touched[k] {
			for _, j := range f.shape.touched[k] {
				variance += float64(g[i] * g[j] * *near.cell(f.shape.place[i], f.shape.place[j]))
			}
		}
		for _, i := range f.shape.touched[k] {
			g[i] = 0
		}
		each(y, f.rates.reads(f.at, y), max(0, variance))
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
