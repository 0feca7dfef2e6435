package planner

import (
	"hash/fnv"
	"math"
	"math/rand/v2"

	"example.com/tripwear/wearmodel/reliability"
)

// classes is how many equally likely classes the pace error is drawn in; all
// draws of a class share its middle quantile, so that the effect of pace is
// worked out once a class.
const classes = 256

// byClass is a figure for every class of pace.
type byClass [classes]float64

// extremes are the least and the most of all classes.
func (b *byClass) extremes() (least, most float64) { f := newFactor(b[:]); return f.lo, f.hi }

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
}

func newDraws(n int, seed uint64) *draws {
	return &draws{n: n, seed: seed, hubs: reliability.NewScale(reliability.HubPrior())}
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

// factors draws a set's lognormal rate factors: exp(spread z), median 1.
func factors(r *rand.Rand, n int, spread float64) []float64 {
	return lognormal(orZeros(normals(r, n, spread), n), 0, spread)
}

// normals draws n standard normals; nil where the spread is 0 and none is
// needed.
func normals(r *rand.Rand, n int, spread float64) []float64 {
	if spread <= 0 {
		return nil
	}
	z := make([]float64, n)
	for k := range z {
		z[k] = r.NormFloat64()
	}
	return z
}

// lognormal is exp(mean + spread z) in place.
func lognormal(z []float64, mean, spread float64) []float64 {
	for k := range z {
		z[k] = math.Exp(mean + float64(spread*z[k]))
	}
	return z
}

// rates draws a set's road and circuit factors, which readings may have tied
// to one another.
func (s *set) rates(r *rand.Rand, n int) (road, circuit []float64) {
	road, circuit = normals(r, n, s.road), normals(r, n, s.circuit)
	if c := s.heard.correlation; road != nil && circuit != nil && c != 0 {
		own := math.Sqrt(max(0, 1-float64(c*c)))
		for k := range circuit {
			circuit[k] = float64(c*road[k]) + float64(own*circuit[k])
		}
	}
	return lognormal(orZeros(road, n), s.heard.road, s.road), lognormal(orZeros(circuit, n), s.heard.circuit, s.circuit)
}

func orZeros(z []float64, n int) []float64 {
	if z == nil {
		return make([]float64, n)
	}
	return z
}
