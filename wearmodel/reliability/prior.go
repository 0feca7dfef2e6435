package reliability

import (
	"cmp"
	"math"
	"slices"
	"sync"

	"gonum.org/v1/gonum/floats"
)

// Prior is what is believed of the log of a Weibull scale before the owner's
// history is heard: a mixture of normal distributions.
type Prior struct {
	Shape   float64   // of the Weibull distribution, known
	Weights []float64 // of the mixture, above 0; their sum need not be 1
	Means   []float64 // of ln scale, scale in L10
	SDs     []float64 // of ln scale, above 0
	Wide    []bool    // of the mixture, where the shape is not known either; nil: it is everywhere
}

// The shapes of a part of a mixture whose shape is not known, about 3.2 by a spread
// of 0.5 of the logarithm: published lives of brakes, braking grids, shock absorbers
// and bearings have 1.2 to 3.2, and what eats bearings does so again and again after
// much the same time. Engineering choices.
var (
	wideShapes = []float64{1.1, 1.3, 1.6, 2, 2.5, 3.1, 3.9, 4.8}
	wideMean   = math.Log(3.2)
	wideSD     = 0.5
	widePoints = 601
)

// HubPrior is that of hub bearings: most corners of most cars are ordinary, a
// few have a problem (a worn upright, a poor press fit, cheap parts) that eats
// bearings. The shape of an ordinary corner is ISO 281's 1.5, that of a problem's
// is not known; the rest are engineering choices.
func HubPrior() Prior {
	return Prior{
		Shape:   1.5,
		Weights: []float64{0.97, 0.03},
		Means:   []float64{math.Log(4.6), math.Log(0.65)},
		SDs:     []float64{0.3, 0.7},
		Wide:    []bool{false, true},
	}
}

// Hubs is the belief of a corner's bearings before any history.
var Hubs = sync.OnceValue(func() Scale { return NewScale(HubPrior()) })

// logDensity is the log of the prior of the parts whose shape is known, or of
// those whose is not, at ln scale = x, up to a constant.
func (p Prior) logDensity(x float64, wide bool) float64 {
	terms := []float64{math.Inf(-1)}
	for i, w := range p.Weights {
		if (p.Wide != nil && p.Wide[i]) != wide {
			continue
		}
		z := (x - p.Means[i]) / p.SDs[i]
		terms = append(terms, math.Log(w/p.SDs[i])-float64(z*z/2))
	}
	return floats.LogSumExp(terms)
}

// points lays the grid over the prior, with the log of the probability of each
// point, up to a constant.
func (p Prior) points() (*grid, []float64) {
	type point struct {
		at, shape, step, log float64
		wide                 bool
	}
	var all []point
	lay := func(shape float64, n int, weight float64, wide bool) {
		step := 2 * gridHalf / float64(n-1)
		first := math.Log(CatalogueScale(p.Shape)) - gridHalf
		for i := range n {
			at := first + float64(float64(i)*step)
			all = append(all, point{at, shape, step, p.logDensity(at, wide) + math.Log(weight*step), wide})
		}
	}
	lay(p.Shape, gridPoints, 1, false)
	if slices.Contains(p.Wide, true) {
		sum, weights := 0.0, make([]float64, len(wideShapes))
		for j, b := range wideShapes {
			z := (math.Log(b) - wideMean) / wideSD
			weights[j] = math.Exp(-z * z / 2)
			sum += weights[j]
		}
		for j, b := range wideShapes {
			lay(b, widePoints, weights[j]/sum, true)
		}
	}
	slices.SortStableFunc(all, func(a, b point) int { return cmp.Compare(a.at, b.at) })
	g, log := &grid{}, make([]float64, len(all))
	for i, q := range all {
		g.at, g.shape, g.step, g.wide = append(g.at, q.at), append(g.shape, q.shape), append(g.step, q.step), append(g.wide, q.wide)
		log[i] = q.log
	}
	return g, log
}
