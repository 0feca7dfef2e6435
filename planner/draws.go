package planner

import (
	"hash/fnv"
	"math"
	"math/rand/v2"

	"example.com/tripwear/wearmodel/reliability"
)

// The pace factor's effect is tabulated at evenly spaced pace errors (in
// spreads) and interpolated linearly between them.
const (
	knots    = 361
	paceSpan = 4.5 // spreads either side; beyond it the effect is held
)

// draws holds what all sets of a trip share: the pace error of each draw.
type draws struct {
	n    int
	seed uint64
	knot []int32
	frac []float64
	hubs reliability.Scale // what is believed of hub bearings
}

// stream gives the random stream of one name, so that a set more or less
// does not move the draws of the others.
func stream(seed uint64, name string) *rand.Rand {
	h := fnv.New64a()
	h.Write([]byte(name))
	return rand.New(rand.NewPCG(seed, h.Sum64()))
}

func newDraws(n int, seed uint64) *draws {
	d := &draws{n: n, seed: seed, knot: make([]int32, n), frac: make([]float64, n), hubs: reliability.NewScale(reliability.HubPrior())}
	r := stream(seed, "pace")
	for k := range n {
		at := (r.NormFloat64() + paceSpan) / (2 * paceSpan) * (knots - 1)
		at = min(max(at, 0), knots-1-1e-9)
		d.knot[k] = int32(at)
		d.frac[k] = at - math.Floor(at)
	}
	return d
}

// factors draws a set's lognormal rate factors: exp(spread z), median 1.
func factors(r *rand.Rand, n int, spread float64) []float64 {
	out := make([]float64, n)
	for k := range out {
		out[k] = math.Exp(spread * r.NormFloat64())
	}
	return out
}

// paceTable adds to table the loss at every knot: the logarithm of the loss
// is a quadratic through its values at the three paces.
func (l loss) paceTable(table *[knots]float64) {
	switch {
	case l[1] <= 0:
		return
	case l[0] <= 0 || l[2] <= 0:
		for i := range table {
			table[i] += l[1]
		}
		return
	}
	low, high := math.Log(l[0]/l[1]), math.Log(l[2]/l[1])
	slope, bend := (high-low)/2, (high+low)/2
	for i := range table {
		z := (float64(i)/(knots-1)*2 - 1) * paceSpan
		table[i] += l[1] * math.Exp(z*(slope+z*bend))
	}
}
