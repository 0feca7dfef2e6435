package reliability

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// The grid of ln scale. Its middle is the catalogue's scale; nine either way
// covers any mixture of sense (a factor of 8,000). Engineering choice.
const (
	gridPoints = 4001
	gridHalf   = 9.0
	gridStep   = 2 * gridHalf / (gridPoints - 1)
)

// Ages beyond these do not change any answer and would leave the range of
// float64 when raised to a power.
const (
	leastAge = 1e-9
	mostAge  = 1e9
)

// grid is the scales, and shapes, that a belief is spread over, by scale.
type grid struct {
	at    []float64 // ln scale
	shape []float64
	step  []float64 // of ln scale from one to the next of its shape
	wide  []bool    // its shape is one of those that may be
}

// Scale is what is believed of the scale of one corner's bearings, and of their
// shape where that is not known. It is a value: updates give a new one. The zero
// Scale is not usable.
type Scale struct {
	*grid
	log   []float64 // log probability by grid point, up to a constant
	ready *ready    // samplers of the belief before any history; nil after some
}

// NewScale is the belief before any history.
func NewScale(p Prior) Scale {
	g, log := p.points()
	return Scale{g, log, &ready{kept: map[asked]Sampler{}}}
}

// hazard is the cumulative hazard at an age if grid point i were true.
func (s Scale) hazard(i int, age float64) float64 {
	return math.Exp(s.shape[i] * (math.Log(age) - s.at[i]))
}

// with adds a log likelihood by grid point.
func (s Scale) with(likelihood func(i int) float64) Scale {
	next := Scale{grid: s.grid, log: make([]float64, len(s.log))}
	for i, l := range s.log {
		next.log[i] = l + likelihood(i)
	}
	floats.AddConst(-floats.Max(next.log), next.log)
	return next
}

// Failed is the belief after a bearing failed at age d.
func (s Scale) Failed(d float64) Scale {
	d = clampAge(d)
	return s.with(func(i int) float64 {
		return math.Log(s.shape[i]) - float64(s.shape[i]*(s.at[i]-math.Log(d))) - s.hazard(i, d)
	})
}

// Good is the belief after a bearing was good at age d, whether it runs on or
// was swapped.
func (s Scale) Good(d float64) Scale {
	d = clampAge(d)
	return s.with(func(i int) float64 { return -s.hazard(i, d) })
}

// FoundBad is the belief after a bearing was good at one inspection, at age
// d1, and bad at the next, at age d2. A bearing never inspected before has d1
// = 0. With nothing between the two it is a failure at d1.
func (s Scale) FoundBad(d1, d2 float64) Scale {
	d1, d2 = clampAge(d1), clampAge(d2)
	if d2 <= d1 {
		return s.Failed(d1)
	}
	// The hazard between the inspections, without cancellation.
	more := math.Log1p((d2 - d1) / d1)
	return s.with(func(i int) float64 {
		before := s.hazard(i, d1)
		return -before + logFails(before*math.Expm1(s.shape[i]*more))
	})
}

// Repaired is the belief after a repair that was meant to cure the corner: with
// the given chance it did, and what was believed before any history holds.
func (s Scale) Repaired(before Scale, cured float64) Scale {
	kept, fresh := floats.LogSumExp(s.log), floats.LogSumExp(before.log)
	next := Scale{grid: s.grid, log: make([]float64, len(s.log))}
	for i := range s.log {
		next.log[i] = floats.LogSumExp([]float64{
			math.Log(cured) + before.log[i] - fresh,
			math.Log1p(-cured) + s.log[i] - kept,
		})
	}
	return next
}

// logFails is ln(1 - exp(-hazard)), good for small and large hazards.
func logFails(hazard float64) float64 {
	if hazard < math.Ln2 {
		return math.Log(-math.Expm1(-hazard))
	}
	return math.Log1p(-math.Exp(-hazard))
}

// Survive is the probability that a bearing good at age lasts extra more.
func (s Scale) Survive(age, extra float64) float64 { return s.At(age).Survive(extra) }

// Log is the mean and the standard deviation of ln scale, scale in L10.
func (s Scale) Log() (mean, sd float64) {
	var sum, first, second float64
	most := floats.Max(s.log)
	for i, l := range s.log {
		p, x := math.Exp(l-most), s.at[i]
		sum, first, second = sum+p, first+float64(p*x), second+float64(p*x*x)
	}
	mean = first / sum
	return mean, math.Sqrt(math.Max(0, float64(second/sum)-float64(mean*mean)))
}

// Split is the belief if the corner is one of those whose shape is not known, and
// if it is not.
func (s Scale) Split() (odd, usual Scale) {
	only := func(wide bool) Scale {
		return s.with(func(i int) float64 {
			if s.wide[i] == wide {
				return 0
			}
			return math.Inf(-1)
		})
	}
	return only(true), only(false)
}

// Odd is the probability that the corner is one of those whose shape is not known.
func (s Scale) Odd() float64 {
	var sum, odd float64
	most := floats.Max(s.log)
	for i, l := range s.log {
		p := math.Exp(l - most)
		if sum += p; s.wide[i] {
			odd += p
		}
	}
	return odd / sum
}

func clampAge(d float64) float64 { return math.Min(mostAge, math.Max(leastAge, d)) }
