package planner

import (
	"hash/fnv"
	"math"
	"math/rand/v2"
	"slices"

	"example.com/tripwear/wearmodel/reliability"
)

// classes is how many equally likely classes the pace error is drawn in; all
// draws of a class share its middle quantile, so that the effect of pace is
// worked out once a class.
const classes = 256

// byClass is a figure for every class of pace.
type byClass [classes]float64

// extremes are the least and the most of a column.
func extremes(x []float64) (least, most float64) {
	least, most = x[0], x[0]
	for _, v := range x { // branches that are foretold, which min and max are not
		if v < least {
			least = v
		}
		if v > most {
			most = v
		}
	}
	return least, most
}

// paceErrors are the classes' pace errors, in spreads.
var paceErrors = func() (z byClass) {
	for c := range z {
		z[c] = math.Sqrt2 * math.Erfinv(float64(2*(float64(c)+0.5)/classes)-1)
	}
	return z
}()

// draws is what all sets of a trip share.
type draws struct {
	n    int
	seed uint64
	hubs reliability.Scale // what is believed of hub bearings

	// The middles of the upper half of n equally likely slices of a standard
	// normal, and of even numbers from 0 to 1 less a half, both rising.
	slices, offsets []float64
}

func newDraws(n int, seed uint64) *draws {
	d := &draws{
		n: n, seed: seed, hubs: reliability.NewScale(reliability.HubPrior()),
		slices: make([]float64, n/2), offsets: make([]float64, n/2),
	}
	for i := range d.slices {
		d.offsets[i] = float64(2*i+1+n%2) / float64(2*n)
		d.slices[i] = math.Sqrt2 * math.Erfinv(2*d.offsets[i])
	}
	return d
}

// class gives the draws of a class of pace: from the first up to the second.
func (d *draws) class(c int) (from, to int) { return c * d.n / classes, (c + 1) * d.n / classes }

// stream gives the random stream of one name, so that a set more or less
// does not move the draws of the others.
func stream(seed uint64, name string) *rand.Rand {
	h := fnv.New64a()
	h.Write([]byte(name))
	return rand.New(rand.NewPCG(seed, h.Sum64()))
}

// shuffle puts n/2 values that belong to the slices into the first half of a
// column in random order, a minus before every second on average.
func (d *draws) shuffle(r *rand.Rand, values []float64) []float64 {
	column := make([]float64, d.n)
	half := column[:len(values)]
	for k, v := range values {
		u := r.Uint64() // its upper half says where to, within a millionth evenly, its last bit the sign
		at := u >> 32 * uint64(k+1) >> 32
		half[k] = half[at]
		half[at] = math.Float64frombits(math.Float64bits(v) | u<<63)
	}
	return column
}

// normals draws standard normals as a Latin hypercube does (McKay, Beckman and
// Conover, Technometrics 21, 1979): each of n equally likely slices comes up
// once, in random order. Draw n-1-k mirrors draw k (antithetic variates,
// Hammersley and Morton 1956), as the classes of pace do.
func (d *draws) normals(r *rand.Rand) []float64 {
	z := d.shuffle(r, d.slices)
	for k, v := range z[:d.n/2] {
		z[d.n-1-k] = -v
	}
	return z
}

// uniforms draws numbers in [0, 1) in the same way.
func (d *draws) uniforms(r *rand.Rand) []float64 {
	u := d.shuffle(r, d.offsets)
	for k, v := range u[:d.n/2] {
		u[k], u[d.n-1-k] = 0.5+v, 0.5-v
	}
	if d.n%2 != 0 {
		u[d.n/2] = 0.5
	}
	return u
}

// factors draws a set's lognormal rate factors: exp(mean + spread z).
func (w *worker) factors(r *rand.Rand, mean, spread float64) []float64 {
	if spread <= 0 {
		return slices.Repeat([]float64{math.Exp(mean)}, w.n)
	}
	out, median := w.shuffle(r, w.growths(spread)), math.Exp(mean)
	last := w.n - 1
	for k, v := range out[:w.n/2] {
		minus := int(math.Float64bits(v) >> 63)
		up, growth := k+minus*(last-2*k), math.Abs(v)
		out[up], out[last-up] = median*growth, median/growth
	}
	if w.n%2 != 0 {
		out[w.n/2] = median
	}
	return out
}

// growths are exp(spread z) of the slices.
func (w *worker) growths(spread float64) []float64 {
	if known, ok := w.spreads[spread]; ok {
		return known
	}
	out := make([]float64, len(w.slices))
	for i, z := range w.slices {
		out[i] = math.Exp(spread * z)
	}
	w.spreads[spread] = out
	return out
}

// rates draws a set's road and circuit factors, which readings may have tied
// to one another.
func (w *worker) rates(r *rand.Rand, s *set) (road, circuit []float64) {
	c := s.heard.correlation
	if c == 0 {
		return w.factors(r, s.heard.road, s.road), w.factors(r, s.heard.circuit, s.circuit)
	}
	road, circuit = w.normals(r), w.normals(r)
	own := math.Sqrt(max(0, 1-float64(c*c)))
	for k, z := range road {
		circuit[k] = math.Exp(s.heard.circuit + float64(s.circuit*(float64(c*z)+float64(own*circuit[k]))))
		road[k] = math.Exp(s.heard.road + float64(s.road*z))
	}
	return road, circuit
}
