package reliability

import "math"

// Weibull is the two-parameter distribution of lives.
type Weibull struct {
	Shape float64 // dimensionless, above 0; 1.5 is ISO 281's for bearings
	Scale float64 // the life that 36.8 % reach
}

// CatalogueScale is the scale at which one in ten fails by the life L10 = 1:
// 4.48 at a shape of 1.5. ISO 281's definition of L10.
func CatalogueScale(shape float64) float64 { return math.Pow(-math.Log(0.9), -1/shape) }

// Hazard is the cumulative hazard at an age: minus the log of Survive.
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
