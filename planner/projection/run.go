package projection

import (
	"slices"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
)

// run is a set on its way through a trip. A worker has one at a time.
type run struct {
	*Worker
	s     *Set
	n     *noise
	worn  []*column // by point, the level that use leaves
	Level []*column // what time leaves of it: the same column where time does not count
}

// Start puts a set at the beginning of its trip. It ends the worker's last run.
func (w *Worker) Start(s *Set) *run {
	w.columnsUsed = 0
	r := &run{Worker: w, s: s, n: w.noiseOf(s)}
	for i := range s.Levels {
		r.worn = append(r.worn, w.column())
		r.restart(i)
		level := r.worn[i]
		if p := &s.Levels[i]; p.Ceiling != nil {
			level = w.column()
			level.fill(p.New)
		}
		r.Level = append(r.Level, level)
	}
	return r
}

// restart puts a point where it starts, less its unmeasured wear before the
// trip.
func (r *run) restart(i int) {
	p, worn := &r.s.Levels[i], r.worn[i]
	if start := r.n.start[i]; start == nil {
		worn.fill(p.From)
	} else {
		copy(worn.Values, start.Values)
		worn.lo, worn.hi = start.lo, start.hi
	}
	before := func(d driven, taken float64) {
		var e byClass
		addTo(trip.Loss{taken, taken, taken}, &e)
		r.subtract(worn, &e, r.n.rates[d], r.n.own[i])
	}
	before(driven{road: true}, p.wornRoad)
	before(driven{}, p.wornCircuit)
	if p.doubtful > 0 {
		for k, not := range r.n.not {
			back := float64(p.doubtful * not * r.n.rates[driven{road: true}].Values[k])
			if own := r.n.own[i]; own != nil {
				back *= own.Values[k]
			}
			worn.Values[k] += back
		}
		worn.lo, worn.hi = bounds(worn.Values)
	}
	if p.held {
		for k, v := range worn.Values {
			worn.Values[k] = min(v, p.most)
		}
		worn.lo, worn.hi = min(worn.lo, p.most), min(worn.hi, p.most)
	}
}

// takeLegs takes the legs from one up to another from a point.
func (r *run) takeLegs(i, from, to int) {
	var taken []driven
	for j := from; j < to; j++ {
		d := r.s.Rates.driven(&r.Usages[j])
		if slices.Contains(taken, d) {
			continue
		}
		taken = append(taken, d)
		var e byClass
		for k := j; k < to; k++ {
			if r.s.Rates.driven(&r.Usages[k]) == d {
				addTo(r.s.Levels[i].LegLoss[k], &e)
			}
		}
		r.subtract(r.worn[i], &e, r.n.rates[d], r.n.own[i])
	}
}

// advancePoint takes leg j from a point, unless it is before the first that
// counts.
func (r *run) advancePoint(i, j, from int) {
	p, worn, level := &r.s.Levels[i], r.worn[i], r.Level[i]
	if j >= from {
		if r.s.PerLeg {
			r.restart(i)
		}
		r.takeLegs(i, j, j+1)
	}
	if p.Ceiling == nil {
		return
	}
	for k, v := range worn.Values {
		if r.s.PerLeg {
			level.Values[k] = min(level.Values[k], v-p.From+p.Ceiling[j]) // the lowest so far
		} else {
			level.Values[k] = min(v, p.Ceiling[j])
		}
	}
	level.lo, level.hi = bounds(level.Values)
}

// Advance takes leg j from every point, unless it is before the first that
// counts.
func (r *run) Advance(j, from int) {
	for i := range r.s.Levels {
		r.advancePoint(i, j, from)
	}
	r.compare()
}

// finish takes all legs from the first that counts, at once where it can.
func (r *run) finish(from int) {
	for i, p := range r.s.Levels {
		if p.Ceiling == nil {
			r.takeLegs(i, from, len(r.Usages))
			continue
		}
		for j := range r.Usages {
			r.advancePoint(i, j, from)
		}
	}
	r.compare()
}

// compare finds, draw by draw, the life left at the worst point and, where
// points have their margins at different shares of life, the least that is
// left to a margin.
func (r *run) compare() {
	for i, level := range r.Level {
		p := &r.s.Levels[i]
		lowerToLeast(r.Life, level.Values, p.Limit, p.lifeScale(), i == 0)
		if !r.s.sameMargin() {
			lowerToLeast(r.toMargin, level.Values, p.Margin, p.lifeScale(), i == 0)
		}
	}
}

// lowerToLeast lowers least to the share of life that levels leave above a line.
func lowerToLeast(least, levels []float64, line, scale float64, first bool) {
	least = least[:len(levels)]
	if first {
		for k, v := range levels {
			least[k] = (v - line) * scale
		}
		return
	}
	for k, v := range levels {
		least[k] = min(least[k], (v-line)*scale)
	}
}

// chances are those of the limit and the margin now.
func (r *run) chances() plan.Band {
	b := plan.Band{PLimit: shareUpTo(r.Life, 0)}
	if r.s.sameMargin() {
		b.PMargin = shareUpTo(r.Life, r.s.Levels[0].marginLife())
	} else {
		b.PMargin = shareUpTo(r.toMargin, 0)
	}
	return b
}

// band is that of the life left at the worst point now.
func (r *run) band() plan.Band {
	b := r.histogram.band(newColumn(r.Life), 0, r.s.Levels[0].marginLife())
	if !r.s.sameMargin() {
		b.PMargin = shareUpTo(r.toMargin, 0)
	}
	return b
}

// mostOften is the point that is now the worst of its set in most draws.
func (r *run) mostOften() int {
	best, most := 0, 0
	for i, level := range r.Level {
		p, times := &r.s.Levels[i], 0
		limit, scale := p.Limit, p.lifeScale()
		for k, v := range level.Values {
			if (v-limit)*scale <= r.Life[k] {
				times++
			}
		}
		if times > most {
			best, most = i, times
		}
	}
	return best
}

// sameMargin says whether all points have their margin at one share of life.
func (s *Set) sameMargin() bool {
	for i := range s.Levels {
		if s.Levels[i].marginLife() != s.Levels[0].marginLife() {
			return false
		}
	}
	return true
}

// lifeScale turns a level above the limit into a share of a new one's.
func (p *Level) lifeScale() float64 { return 1 / (p.New - p.Limit) }

// marginLife is the share of life left at the margin.
func (p *Level) marginLife() float64 { return (p.Margin - p.Limit) * p.lifeScale() }
