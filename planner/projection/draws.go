package projection

import (
	"hash/fnv"
	"math"
	"math/rand/v2"
	"slices"

	"example.com/tripwear/wearmodel/reliability"
)

// Draws is the number of draws, their seed, and what all sets of a trip share.
type Draws struct {
	N    int
	Seed uint64
	hubs reliability.Scale // the prior of hub bearings

	// The middles of the upper half of n equally likely strata, from the median
	// up: as probabilities less a half, and as standard normals.
	offsets, z []float64
}

// NewDraws prepares n draws, 1 or more.
func NewDraws(n int, seed uint64) *Draws {
	d := &Draws{
		N: n, Seed: seed, hubs: reliability.Hubs(),
		offsets: make([]float64, n/2), z: make([]float64, n/2),
	}
	for i := range d.z {
		d.offsets[i] = float64(2*i+1+n%2) / float64(2*n)
		d.z[i] = math.Sqrt2 * math.Erfinv(2*d.offsets[i])
	}
	return d
}

// column is a figure of every draw.
type column struct {
	Values []float64
	lo, hi float64 // no draw lies beyond, but for rounding
}

func newColumn(of []float64) *column {
	lo, hi := bounds(of)
	return &column{of, lo, hi}
}

// fill gives every draw one value.
func (c *column) fill(v float64) {
	for k := range c.Values {
		c.Values[k] = v
	}
	c.lo, c.hi = v, v
}

// bounds are the least and the greatest of some numbers.
func bounds(x []float64) (least, greatest float64) {
	least, greatest = x[0], x[0]
	for _, v := range x { // several times faster than min and max
		if v < least {
			least = v
		}
		if v > greatest {
			greatest = v
		}
	}
	return least, greatest
}

// Stream gives the random stream of one name, so that one set more or less
// leaves the draws of the others alone.
func Stream(seed uint64, name string) *rand.Rand {
	h := fnv.New64a()
	h.Write([]byte(name))
	return rand.New(rand.NewPCG(seed, h.Sum64()))
}

// hypercube draws a column as a Latin hypercube does (McKay, Beckman and
// Conover, Technometrics 21, 1979): each of n equally likely strata comes up
// once, in random order. Draw n-1-k mirrors draw k (antithetic variates,
// Hammersley and Morton 1956), as the classes of pace do. The values of stratum
// i above the median and of its mirror image below come from pair.
func (d *Draws) hypercube(r *rand.Rand, median float64, pair func(i int) (above, below float64)) []float64 {
	column, last := make([]float64, d.N), d.N-1
	if d.N%2 != 0 {
		column[d.N/2] = median
	}
	for k := range d.N / 2 { // a Fisher-Yates shuffle, as the column fills
		u := r.Uint64() // the upper half says where to, the last bit which way round
		at := int(u >> 32 * uint64(k+1) >> 32)
		column[k], column[last-k] = column[at], column[last-at]
		if u&1 != 0 {
			at = last - at
		}
		column[at], column[last-at] = pair(k)
	}
	return column
}

// normals draws standard normals.
func (d *Draws) normals(r *rand.Rand) []float64 {
	return d.hypercube(r, 0, func(i int) (above, below float64) { return d.z[i], -d.z[i] })
}

// uniforms draws numbers in [0, 1).
func (d *Draws) uniforms(r *rand.Rand) []float64 {
	return d.hypercube(r, 0.5, func(i int) (above, below float64) { return 0.5 + d.offsets[i], 0.5 - d.offsets[i] })
}

// lognormals draws exp(mean + spread z) for standard normals z.
func (w *Worker) lognormals(r *rand.Rand, mean, spread float64) []float64 {
	median := math.Exp(mean)
	if spread <= 0 {
		return slices.Repeat([]float64{median}, w.N)
	}
	growth := w.growths(spread)
	return w.hypercube(r, median, func(i int) (above, below float64) {
		return median * growth[i], median / growth[i]
	})
}

// growths are exp(spread z) of the strata.
func (w *Worker) growths(spread float64) []float64 {
	growth, known := w.spreads[spread]
	if !known {
		for _, z := range w.z {
			growth = append(growth, math.Exp(spread*z))
		}
		w.spreads[spread] = growth
	}
	return growth
}
