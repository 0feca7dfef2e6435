package projection

import (
	"math"

	"example.com/tripwear/planner/trip"
)

// classes is how many equally likely classes the pace error is drawn in. All
// draws of a class share its middle quantile, so that the effect of pace is
// worked out once a class.
const classes = 256

// byClass is a figure for every class of pace, slowest first.
type byClass [classes]float64

// paceErrors are the classes' pace errors, in spreads.
var paceErrors = func() (z byClass) {
	for c := range z {
		z[c] = math.Sqrt2 * math.Erfinv(float64(2*(float64(c)+0.5)/classes)-1)
	}
	return z
}()

// class gives the draws of a class of pace: from the first up to the second.
func (d *Draws) class(c int) (from, to int) { return c * d.N / classes, (c + 1) * d.N / classes }

// addTo adds to table the loss in every class of pace: the logarithm of the
// loss is a quadratic through its values at the three paces.
func addTo(l trip.Loss, table *byClass) {
	if l[1] <= 0 {
		return
	}
	if l[0] <= 0 || l[2] <= 0 || l[0] == l[1] && l[2] == l[1] {
		for c := range table {
			table[c] += l[1]
		}
		return
	}
	low, high := math.Log(l[0]/l[1]), math.Log(l[2]/l[1])
	slope, bend := float64((high-low)/2), (high+low)/2
	for c, z := range paceErrors {
		table[c] += float64(l[1] * math.Exp(z*(slope+float64(z*bend))))
	}
}

// A set wears at three rates, each with draws of its own.
const (
	onRoads = iota
	onCircuits
	onSummaries // circuits known by their summary alone
	ratesOfASet
)

// rate is the rate that a leg's losses are multiplied by.
func rate(u *trip.Usage) int {
	switch {
	case !u.Circuit:
		return onRoads
	case u.Summary:
		return onSummaries
	}
	return onCircuits
}

// effect is what some legs take from a point, by rate and class of pace.
type effect [ratesOfASet]byClass

// subtract takes an effect, times the rates of every draw, off levels. The
// bounds go along: to look for them afterwards takes a tenth of a projection.
func (d *Draws) subtract(levels *column, e *effect, rates *[ratesOfASet]*column) {
	for i := range e {
		least, greatest := bounds(e[i][:])
		if greatest <= 0 {
			continue
		}
		levels.lo -= float64(greatest * rates[i].hi)
		levels.hi -= float64(least * rates[i].lo)
		for c, taken := range e[i] {
			from, to := d.class(c)
			part := levels.Values[from:to]
			for k, rate := range rates[i].Values[from:to] {
				part[k] -= float64(taken * rate)
			}
		}
	}
}
