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

// driven names what a leg's losses are multiplied by beside a point's own
// multiple: the zero value is the circuits that the past's were.
type driven struct {
	road    bool
	circuit string
	summary bool // the circuit is known by its summary alone
	visit   int
}

// driven is what multiplies a leg's losses. Circuits and visits count as one
// where nothing sets them apart.
func (r RatePosterior) driven(u *trip.Usage) driven {
	d := driven{road: !u.Circuit, circuit: u.Name, summary: u.Summary, visit: u.Visit}
	if _, known := r.Circuits[u.Name]; d.road || !known && r.Apart == 0 && !u.Summary {
		d.circuit, d.summary = "", false
	}
	if d.road || r.Visit.Scale == 0 {
		d.visit = 0
	}
	return d
}

// subtract takes losses by class of pace, times multiples of every draw, off
// levels. The bounds go along: to look for them afterwards takes a tenth of a
// projection.
func (d *Draws) subtract(levels *column, e *byClass, rates, own *column) {
	least, greatest := bounds(e[:])
	if greatest <= 0 {
		return
	}
	lo, hi := rates.lo, rates.hi
	if own != nil {
		lo, hi = lo*own.lo, hi*own.hi
	}
	levels.lo -= float64(greatest * hi)
	levels.hi -= float64(least * lo)
	for c, taken := range e {
		from, to := d.class(c)
		part := levels.Values[from:to]
		if own == nil {
			for k, rate := range rates.Values[from:to] {
				part[k] -= float64(taken * rate)
			}
			continue
		}
		of := own.Values[from:to]
		for k, rate := range rates.Values[from:to] {
			part[k] -= float64(taken * rate * of[k])
		}
	}
}
