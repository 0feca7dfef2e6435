package reliability

import (
	"math"
	"sync"
)

// Sampler is a Scale made ready for bearings that are good at one age.
type Sampler struct {
	belief Scale
	age    float64
	logAge float64   // -Inf where new
	upTo   []float64 // probability of the grid points up to and with each
	guide  []int32   // for every guideSteps-th part of 1, the first grid point whose upTo reaches it
}

// guideSteps is how finely the guide divides probability: a search starts
// within a grid point or two of its end. It does not change what is found.
const guideSteps = 4096

// At gives the sampler for bearings that are good at an age (in L10). That
// they are good is itself heard as evidence on the scale.
func (s Scale) At(age float64) Sampler {
	return s.ready.once(asked{age, true}, func() Sampler {
		if age > 0 {
			return s.Good(age).prepare(age)
		}
		return s.prepare(age)
	})
}

// Unheard is At where that they are good says nothing of the scale, since
// nobody knows how many went before them.
func (s Scale) Unheard(age float64) Sampler {
	return s.ready.once(asked{age, false}, func() Sampler { return s.prepare(age) })
}

// ready keeps the samplers of a belief that many plans ask for at the same ages.
// A nil one keeps nothing.
type ready struct {
	mu   sync.Mutex
	kept map[asked]Sampler
}

// asked is an age, and whether being good at it is evidence.
type asked struct {
	age   float64
	heard bool
}

// mostReady bounds what is kept: 10 MB.
const mostReady = 64

func (r *ready) once(what asked, prepare func() Sampler) Sampler {
	if r == nil {
		return prepare()
	}
	r.mu.Lock()
	out, ok := r.kept[what]
	r.mu.Unlock()
	if ok {
		return out
	}
	out = prepare()
	r.mu.Lock()
	defer r.mu.Unlock()
	if len(r.kept) >= mostReady {
		clear(r.kept)
	}
	r.kept[what] = out
	return out
}

func (s Scale) prepare(age float64) Sampler {
	age = math.Min(mostAge, math.Max(0, age))
	upTo := make([]float64, len(s.log))
	total := 0.0
	for i, l := range s.log {
		total += math.Exp(l)
		upTo[i] = total
	}
	for i := range upTo {
		upTo[i] /= total
	}
	guide, i := make([]int32, guideSteps), 0
	for k := range guide {
		for i < len(upTo)-1 && upTo[i] < float64(k)/guideSteps {
			i++
		}
		guide[k] = int32(i)
	}
	return Sampler{belief: s, age: age, logAge: math.Log(age), upTo: upTo, guide: guide}
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
			sum += float64(mass * math.Exp(-growth(i)))
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
	more := math.Log1p(extra / s.age)
	return func(i int) float64 { return b.hazard(i, s.age) * math.Expm1(b.shape[i]*more) }
}

// Draw is the life left by two uniform numbers in [0, 1): the first picks the
// scale and its shape, the second the life by them. It grows with the second, and
// with both where the shape is known.
func (s Sampler) Draw(u1, u2 float64) float64 {
	const below1 = 1 - 1.0/(1<<53)
	logScale, shape := s.logScale(u1)
	more := -math.Log1p(-math.Min(below1, math.Max(0, u2)))
	if s.age == 0 {
		if more == 0 {
			return 0
		}
		return math.Exp(logScale + math.Log(more)/shape)
	}
	// In logarithms, since the plain difference of lives would cancel.
	spent := math.Exp(shape * (s.logAge - logScale))
	if more >= spent {
		return math.Max(0, math.Exp(logScale+math.Log(spent+more)/shape)-s.age)
	}
	return s.age * math.Expm1(math.Log1p(more/spent)/shape)
}

// logScale inverts the belief's distribution function in ln scale, with straight
// lines across each grid cell, and gives the shape there.
func (s *Sampler) logScale(u float64) (logScale, shape float64) {
	last := len(s.upTo) - 1
	u = max(0, u)
	i := int(s.guide[min(guideSteps-1, int(u*guideSteps))])
	for i < last && s.upTo[i] < u {
		i++
	}
	below := 0.0
	if i > 0 {
		below = s.upTo[i-1]
	}
	share := 1.0
	if mass := s.upTo[i] - below; mass > 0 {
		share = math.Max(0, math.Min(1, (u-below)/mass))
	}
	return s.belief.at[i] + float64(s.belief.step[i]*(share-0.5)), s.belief.shape[i]
}
