package planner

// run is a set on its way through a trip. A worker has one at a time.
type run struct {
	*worker
	s     *set
	n     *noise
	worn  []*column // by point, the level that use leaves
	level []*column // what time leaves of it: the same column where time does not count
}

// start puts a set at the beginning of its trip.
func (w *worker) start(s *set) *run {
	w.taken = 0
	r := &run{worker: w, s: s, n: w.noiseOf(s)}
	for i := range s.points {
		r.worn = append(r.worn, w.column())
		r.restart(i)
		level := r.worn[i]
		if p := &s.points[i]; p.cap != nil {
			level = w.column()
			level.fill(p.New)
		}
		r.level = append(r.level, level)
	}
	return r
}

// restart puts a point where it starts, less what it lost before the trip
// and nobody measured.
func (r *run) restart(i int) {
	p, worn := &r.s.points[i], r.worn[i]
	if start := r.n.start[i]; start == nil {
		worn.fill(p.from)
	} else {
		copy(worn.of, start.of)
		worn.lo, worn.hi = start.lo, start.hi
	}
	var e effect
	loss{p.wornRoad, p.wornRoad, p.wornRoad}.addTo(&e[onRoads])
	loss{p.wornCircuit, p.wornCircuit, p.wornCircuit}.addTo(&e[onCircuits])
	r.subtract(worn, &e, &r.n.rates)
}

// takeLegs takes the legs from one up to another from a point.
func (r *run) takeLegs(i, from, to int) {
	var e effect
	for j := from; j < to; j++ {
		r.s.points[i].legs[j].addTo(&e[r.usages[j].rate()])
	}
	r.subtract(r.worn[i], &e, &r.n.rates)
}

// advancePoint takes leg j from a point, unless it is before the first that
// counts.
func (r *run) advancePoint(i, j, from int) {
	p, worn, level := &r.s.points[i], r.worn[i], r.level[i]
	if j >= from {
		if r.s.alone {
			r.restart(i)
		}
		r.takeLegs(i, j, j+1)
	}
	if p.cap == nil {
		return
	}
	for k, v := range worn.of {
		if r.s.alone {
			level.of[k] = min(level.of[k], v-p.from+p.cap[j]) // the lowest so far
		} else {
			level.of[k] = min(v, p.cap[j])
		}
	}
	level.lo, level.hi = bounds(level.of)
}

// advance takes leg j from every point, unless it is before the first that
// counts.
func (r *run) advance(j, from int) {
	for i := range r.s.points {
		r.advancePoint(i, j, from)
	}
	r.compare()
}

// finish takes all legs from the first that counts, at once where it can.
func (r *run) finish(from int) {
	for i, p := range r.s.points {
		if p.cap == nil {
			r.takeLegs(i, from, len(r.usages))
			continue
		}
		for j := range r.usages {
			r.advancePoint(i, j, from)
		}
	}
	r.compare()
}

// compare finds, draw by draw, the life left at the worst point and, where
// points have their margins at different shares of life, the least that is
// left to a margin.
func (r *run) compare() {
	for i, level := range r.level {
		p := &r.s.points[i]
		leastAbove(r.life, level.of, p.Limit, p.lifeScale(), i == 0)
		if !r.s.sameMargin() {
			leastAbove(r.early, level.of, p.Margin, p.lifeScale(), i == 0)
		}
	}
}

// leastAbove lowers least to the share of life that levels leave above a line.
func leastAbove(least, levels []float64, line, scale float64, first bool) {
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
func (r *run) chances() Band {
	b := Band{PLimit: shareUpTo(r.life, 0)}
	if r.s.sameMargin() {
		b.PMargin = shareUpTo(r.life, r.s.points[0].marginLife())
	} else {
		b.PMargin = shareUpTo(r.early, 0)
	}
	return b
}

// band is that of the life left at the worst point now.
func (r *run) band() Band {
	b := r.histogram.band(newColumn(r.life), 0, r.s.points[0].marginLife())
	if !r.s.sameMargin() {
		b.PMargin = shareUpTo(r.early, 0)
	}
	return b
}

// mostOften is the point that is now the worst of its set in most draws.
func (r *run) mostOften() int {
	best, most := 0, 0
	for i, level := range r.level {
		p, times := &r.s.points[i], 0
		limit, scale := p.Limit, p.lifeScale()
		for k, v := range level.of {
			if (v-limit)*scale <= r.life[k] {
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
func (s *set) sameMargin() bool {
	for i := range s.points {
		if s.points[i].marginLife() != s.points[0].marginLife() {
			return false
		}
	}
	return true
}

// lifeScale turns a level above the limit into a share of a new one's.
func (p *point) lifeScale() float64 { return 1 / (p.New - p.Limit) }

// marginLife is the share of life left at the margin.
func (p *point) marginLife() float64 { return (p.Margin - p.Limit) * p.lifeScale() }
