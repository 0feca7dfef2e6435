package reliability

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Told is what is believed of the log of a factor: normal.
type Told struct{ Mean, SD float64 }

// Alone is what the readings of a posterior say without its prior, which was
// around 0 with a spread of prior. It is false where they say nothing.
func (t Told) Alone(prior float64) (Told, bool) {
	before, after := 1/(prior*prior), 1/(t.SD*t.SD)
	if !(after > before*(1+leastSaid)) {
		return Told{}, false
	}
	return Told{t.Mean * after / (after - before), 1 / math.Sqrt(after-before)}, true
}

// How factors of the same thing differ from car to car, and how finely that is
// looked at. Engineering choices.
const (
	leastSaid    = 1e-3 // share by which readings narrow a prior at least to say something
	alikeFreedom = 4    // degrees of freedom of the t distribution that cars have: a wild one does not pull
	alikeScales  = 12   // of the t distribution as a mixture of normals
	alikeSpreads = 16   // of the unknown spread from car to car
	alikeMeans   = 25   // of the unknown mean, looked at twice
)

// Another is what is believed of the factor of one more car after what others'
// readings say of theirs, each by its own. Before them it is around 0 with a
// spread, half of whose variance is that of the mean of all cars, and half, as is
// to be expected, theirs from car to car: Student's t around the mean with a scale
// with Rayleigh's density, which keeps it from 0 as that of shape 2 does in Chung,
// Rabe-Hesketh, Dorie, Gelman and Liu, Psychometrika 78, 2013: no two cars are alike.
// The answer has that distribution's mean and standard deviation.
func Another(others []Told, spread float64) Told {
	if len(others) == 0 {
		return Told{0, spread}
	}
	middle, reach, found := 0.0, 5*spread, Told{}
	for range 2 {
		found = another(others, spread, middle, reach, mixture())
		middle, reach = found.Mean, 6*found.SD/math.Sqrt(float64(len(others)))+reach/alikeMeans
	}
	return found
}

// normal is one of a mixture around the same mean.
type normal struct{ weight, variance float64 }

// mixture is Student's t of scale 1: the variance of its normals is the degrees of
// freedom over chi-squared, whose logarithm is taken in even steps, far into the
// tail.
func mixture() []normal {
	const least, step = -8.0, 1.0
	out, sum := make([]normal, alikeScales), 0.0
	for i := range out {
		x := math.Exp(least + float64(float64(i)*step))
		out[i] = normal{float64(x * distuv.ChiSquared{K: alikeFreedom}.Prob(x)), alikeFreedom / x}
		sum += out[i].weight
	}
	for i := range out {
		out[i].weight /= sum
	}
	return out
}

// another looks at the means that lie within a reach of the middle.
func another(others []Told, spread, middle, reach float64, cars []normal) Told {
	step, by := 2*reach/(alikeMeans-1), spread*0.15
	type point struct{ log, mean, variance float64 }
	var all []point
	most := math.Inf(-1)
	for i := range alikeMeans {
		mean := middle - reach + float64(float64(i)*step)
		for j := range alikeSpreads {
			scale := (float64(j) + 0.5) * by
			log := math.Log(scale) - float64(mean*mean)/(spread*spread) - float64(4*scale*scale)/(spread*spread)
			for _, o := range others {
				density := 0.0
				for _, n := range cars {
					variance := float64(o.SD*o.SD) + float64(scale*scale*n.variance)
					off := o.Mean - mean
					density += n.weight * math.Exp(-off*off/(2*variance)) / math.Sqrt(variance)
				}
				log += math.Log(math.Max(density, math.SmallestNonzeroFloat64))
			}
			all = append(all, point{log, mean, float64(float64(scale*scale)*alikeFreedom/(alikeFreedom-2)) + float64(step*step/12)})
			most = math.Max(most, log)
		}
	}
	var weight, mean, square float64
	for _, p := range all {
		w := math.Exp(p.log - most)
		weight, mean = weight+w, mean+float64(w*p.mean)
		square += float64(w * (float64(p.mean*p.mean) + p.variance))
	}
	mean /= weight
	return Told{mean, math.Sqrt(square/weight - float64(mean*mean))}
}
