package workbook

import (
	"math"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
)

// wearing is a point whose wear the workbook works out live: its inputs on
// the Car sheet, its rates on the Rates sheet, and its way through the trip.
type wearing struct {
	set  *planner.Set
	p    *planner.Point
	u    unit
	row  int // on the Car sheet
	from int // on the Workings sheet: the start; a row a driven leg follows

	start, margin, limit ref // inputs
	fresh                ref // level of a new part
	gauge, reading       ref // sd of the start as read, and of a new reading
	priorRoad, priorCirc ref // unmeasured wear before the trip
	road, circuit        ref // spreads
	rate, spread, wear   []ref
	steps                []step // the start, then after each driven leg
}

// step is a point's state at the start or after a driven leg.
type step struct {
	left           ref // nominal level, below none where it is worn through
	lo, hi         ref // 5 and 95 %
	pLimit, pPast  ref // chances to have crossed the limit, the margin
	share          ref // of life, of the part as new
	sums           sums
	passed, beyond bool // nominally at or below the margin, the limit
}

// banded says whether the sheet works out a band: where wear adds up at rates
// that have a spread. A hub ends by a drawn failure, so it has none.
func (w *wearing) banded() bool { return w.set.Kind != profiles.Bearing }

// spot names the point within its set.
func (w *wearing) spot() string {
	switch w.p.Measure {
	case planner.Crack:
		return w.p.Place + " crack life"
	case planner.Thickness:
		return w.p.Place + " thickness"
	case planner.OilLife:
		return "distance left"
	}
	return spot(*w.p)
}

// last is the state at the end of the trip.
func (w *wearing) last() step { return w.steps[len(w.steps)-1] }

// list gathers the points that wear, in the order of the sets.
func (b *book) list() {
	n := len(b.driven)
	for i := range b.p.Sets {
		t := &b.p.Sets[i]
		if t.Kind == profiles.Fluid {
			continue
		}
		for k := range t.Points {
			p := &t.Points[k]
			w := &wearing{set: t, p: p, u: b.u.level(p.Measure), rate: make([]ref, n), spread: make([]ref, n), wear: make([]ref, n)}
			w.row = carFirst + len(b.wear)
			w.from = workFirst + len(b.wear)*(n+2)
			b.inputs(w)
			b.wear = append(b.wear, w)
		}
	}
}

// inputs places a point's cells on the Car sheet.
func (b *book) inputs(w *wearing) {
	k, s, p := w.u.factor(), b.car, w.p
	known := func(v float64) float64 { return choose(finite(v), tidy(v*k), 0) }
	w.start, w.margin, w.limit = s.at(carStart, w.row, known(p.Start)), s.at(carMargin, w.row, known(p.Margin)), s.at(carLimit, w.row, known(p.Limit))
	w.fresh = s.hiddenAt(carNew, w.row, known(p.New))
	w.gauge, w.reading = s.hiddenAt(carGauge, w.row, known(p.Gauge)), s.hiddenAt(carReading, w.row, known(p.Reading))
	w.priorRoad, w.priorCirc = s.hiddenAt(carPriorRoad, w.row, known(p.Prior[0])), s.hiddenAt(carPriorCircuit, w.row, known(p.Prior[1]))
}

// find is the wearing point of a set's point; nil where there is none.
func (b *book) find(p planner.Point) *wearing {
	for _, w := range b.wear {
		if w.p.Place == p.Place && w.p.Zone == p.Zone && w.p.Measure == p.Measure {
			return w
		}
	}
	return nil
}

// normal is the chance that a standard normal figure is below z.
func normal(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
