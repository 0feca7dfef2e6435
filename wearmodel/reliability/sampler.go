package reliability

import (
	"math"
	"sort"
)

// Sampler is a Scale made ready for bearings that are good at one age.
type Sampler struct {
	belief Scale
	age    float64
	upTo   []float64 // probability of the grid points up to and with each
}

// At gives the sampler for bearings that are good at an age (in L10). That
// they are good is itself heard as evidence on the scale.
func (s Scale) At(age float64) Sampler {
	age = math.Min(mostAge, math.Max(0, age))
	b := s
	if age > 0 {
		b = s.Good(age)
	}
	upTo := make([]float64, len(b.log))
	total := 0.0
	for i, l := range b.log {
		total += math.Exp(l)
		upTo[i] = total
	}
	for i := range upTo {
		upTo[i] /= total
	}
	return Sampler{belief: b, age: age, upTo: upTo}
}

// Survive is the probability of lasting extra more: the Weibull's conditional
// one, averaged over what is believed of the scale.
func (s Sampler) Survive(extra float64) float64 {
	if extra <= 0 {
		return 1
	}
	growth := s.hazardGrowth(math.Min(mostAge, extra))
	sum, below := 0.0, 0.0
	for i, p := range s.upTo {
		if mass := p - below; mass > 0 {
			sum += mass * math.Exp(-growth(i))
		}
		below = p
	}
	return math.Min(1, sum)
}

// hazardGrowth gives, by grid point, the hazard between age and age + extra.
func (s Sampler) hazardGrowth(extra float64) func(i int) float64 {
	b := s.belief
	if s.age < leastAge {
		return func(i int) float64 { return b.hazard(i, extra) }
	}
	ratio := math.Expm1(b.shape * math.Log1p(extra/s.age))
	return func(i int) float64 { return b.hazard(i, s.age) * ratio }
}

// Draw is the life left by two uniform numbers in [0, 1): the first picks the
// scale, the second the life at that scale. It grows with both.
func (s Sampler) Draw(u1, u2 float64) float64 {
	const below1 = 1 - 1.0/(1<<53)
	w := Weibull{Shape: s.belief.shape, Scale: s.scale(u1)}
	return w.Remaining(s.age, math.Min(below1, math.Max(0, u2)))
}

// scale inverts the belief's distribution function, with straight lines in ln
// scale across each grid cell.
func (s Sampler) scale(u float64) float64 {
	last := len(s.upTo) - 1
	i := min(last, sort.SearchFloat64s(s.upTo, math.Max(0, u)))
	below := 0.0
	if i > 0 {
		below = s.upTo[i-1]
	}
	share := 1.0
	if mass := s.upTo[i] - below; mass > 0 {
		share = math.Max(0, math.Min(1, (u-below)/mass))
	}
	return math.Exp(s.belief.at(i) + gridStep*(share-0.5))
}
