package reliability

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// Prior is what is believed of the log of a Weibull scale before the owner's
// history is heard: a mixture of normal distributions.
type Prior struct {
	Shape   float64   // of the Weibull distribution, known
	Weights []float64 // of the mixture, above 0; their sum need not be 1
	Means   []float64 // of ln scale, scale in L10
	SDs     []float64 // of ln scale, above 0
}

// HubPrior is that of hub bearings: most corners of most cars are ordinary, a
// few have a problem (a worn upright, a poor press fit, cheap parts) that eats
// bearings. The shape is ISO 281's 1.5; the rest are engineering choices.
func HubPrior() Prior {
	return Prior{
		Shape:   1.5,
		Weights: []float64{0.97, 0.03},
		Means:   []float64{math.Log(4.6), math.Log(0.65)},
		SDs:     []float64{0.3, 0.7},
	}
}

// logDensity is the log of the prior at ln scale = x, up to a constant.
func (p Prior) logDensity(x float64) float64 {
	terms := make([]float64, len(p.Weights))
	for i, w := range p.Weights {
		z := (x - p.Means[i]) / p.SDs[i]
		terms[i] = math.Log(w/p.SDs[i]) - float64(z*z/2)
	}
	return floats.LogSumExp(terms)
}
