package planner

import "math"

// effect is what a leg takes from a point in every class of pace.
type effect struct {
	by          byClass
	least, most float64
}

// effect works a loss out, once for all points and projections that share it.
func (w *worker) effect(l loss) *effect {
	if known, ok := w.effects[l]; ok {
		return known
	}
	e := &effect{}
	l.addTo(&e.by)
	e.least, e.most = extremes(e.by[:])
	w.effects[l] = e
	return e
}

// addTo adds to table the loss in every class of pace: the logarithm of the
// loss is a quadratic through its values at the three paces.
func (l loss) addTo(table *byClass) {
	switch {
	case l[1] <= 0:
		return
	case l[0] <= 0 || l[2] <= 0 || l[0] == l[1] && l[2] == l[1]:
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

// add adds another effect that the same factor multiplies.
func (e *effect) add(other *effect) {
	for c := range e.by {
		e.by[c] += other.by[c]
	}
	e.least, e.most = extremes(e.by[:])
}

// constant is the effect of a loss that no pace changes.
func (w *worker) constant(l float64) *effect { return w.effect(loss{l, l, l}) }

// lower takes an effect, times a factor of every draw, off a column.
func (d *draws) lower(level []float64, e *effect, f *factor) {
	for c := range classes {
		from, to := d.class(c)
		taken, of := e.by[c], f.of[from:to]
		column := level[from:to][:len(of)]
		for k, v := range of {
			column[k] -= float64(taken * v)
		}
	}
}

// lowerAndCount is lower for a histogram that is open, which counts the
// column on the way, and lowers least to it.
func (d *draws) lowerAndCount(level []float64, e *effect, f *factor, h *histogram, least []float64, first bool) {
	lo, scale := h.lo, h.scale
	for c := range classes {
		from, to := d.class(c)
		taken, of := e.by[c], f.of[from:to]
		column, id, worst := level[from:to][:len(of)], h.id[from:to][:len(of)], least[from:to][:len(of)]
		if first {
			for k, v := range of {
				x := column[k] - float64(taken*v)
				b := uint16((x-lo)*scale) & (bins - 1)
				column[k], worst[k], id[k] = x, x, b
				h.counts[b]++
			}
			continue
		}
		for k, v := range of {
			x := column[k] - float64(taken*v)
			b := uint16((x-lo)*scale) & (bins - 1)
			column[k], worst[k], id[k] = x, min(worst[k], x), b
			h.counts[b]++
		}
	}
}

// lowerAndCountBoth is lowerAndCount for the last point of a set, with which
// least is what is left of the set: all counts it.
func (d *draws) lowerAndCountBoth(level []float64, e *effect, f *factor, h *histogram, least []float64, all *histogram) {
	lo, scale, loAll, scaleAll := h.lo, h.scale, all.lo, all.scale
	for c := range classes {
		from, to := d.class(c)
		taken, of := e.by[c], f.of[from:to]
		column, id := level[from:to][:len(of)], h.id[from:to][:len(of)]
		worst, idAll := least[from:to][:len(of)], all.id[from:to][:len(of)]
		for k, v := range of {
			x := column[k] - float64(taken*v)
			w := min(worst[k], x)
			b, bAll := uint16((x-lo)*scale)&(bins-1), uint16((w-loAll)*scaleAll)&(bins-1)
			column[k], worst[k], id[k], idAll[k] = x, w, b, bAll
			h.counts[b]++
			all.counts[bAll]++
		}
	}
}
