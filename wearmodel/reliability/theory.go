package reliability

// Effect is how a reading follows a number that the fit does not have.
type Effect struct {
	Reading int     // by its index
	Slope   float64 // of the reading by the number
}

// Score is what a fit's readings say of a number that it takes to be 0: the
// slope of the log likelihood there, and how much they know of the number once
// all else may give way to it (Rao's score test, 1948).
func (f Fit) Score(effects []Effect) (slope, information float64) {
	g := make([]float64, len(f.at))
	for _, e := range effects {
		y := f.rates.Readings[e.Reading]
		weight := e.Slope / (y.Gauge * y.Gauge)
		slope += float64(weight * (y.Level - f.rates.reads(f.at, y)))
		information += float64(weight * e.Slope)
		one := make([]float64, 0, len(f.shape.touched[e.Reading]))
		for _, i := range f.shape.touched[e.Reading] {
			one, g[i] = append(one, g[i]), 0
		}
		f.rates.gradientAt(g, f.at, y)
		for k, i := range f.shape.touched[e.Reading] {
			g[i] = one[k] + float64(weight*g[i])
		}
	}
	v := f.root(g)
	return slope, max(0, information-dot(v, v))
}

// Cost is minus the log of the posterior density at the most likely point, but
// for what depends on the spreads alone.
func (f Fit) Cost() float64 { return f.rates.cost(f.at) }

// Taken is what some driving took at the most likely point.
func (f Fit) Taken(t Taken) float64 { return t.at(f.at) }

// OffsetOf is the most likely offset of a gauge, by its index and 1.
func (f Fit) OffsetOf(offset int) float64 { return f.at[len(f.rates.Factors)+offset-1] }
