package planner

import "slices"

// run is a set on its way through a trip: the level of every point in every
// draw.
type run struct {
	*worker
	s      *set
	n      *noise
	level  [][]float64 // by point, what use leaves
	shown  [][]float64 // by point, what use and time leave: level itself where time does not count
	lo, hi []float64   // by point, what no draw of level can leave
}

// start puts a set at the beginning of its trip.
func (w *worker) start(s *set) *run {
	r := &run{worker: w, s: s, n: w.noiseOf(s), lo: make([]float64, len(s.points)), hi: make([]float64, len(s.points))}
	for i := range s.points {
		p := &s.points[i]
		r.level = append(r.level, w.take())
		r.restart(i)
		shown := r.level[i]
		if p.cap != nil {
			shown = w.take()
			for k := range shown {
				shown[k] = p.New
			}
		}
		r.shown = append(r.shown, shown)
	}
	return r
}

// take gives a column to write to, release hands a run's back.
func (w *worker) take() []float64 {
	if n := len(w.spare); n > 0 {
		column := w.spare[n-1]
		w.spare = w.spare[:n-1]
		return column
	}
	return make([]float64, w.draws.n)
}

func (w *worker) release(r *run) {
	for i := range r.level {
		w.spare = append(w.spare, r.level[i])
		if r.s.points[i].cap != nil {
			w.spare = append(w.spare, r.shown[i])
		}
	}
}

// restart puts a point where it starts, less what it lost before the trip
// and nobody measured.
func (r *run) restart(i int) {
	p, offset := &r.s.points[i], &r.n.offset[i]
	if offset.of == nil {
		for k := range r.level[i] {
			r.level[i][k] = offset.lo
		}
	} else {
		copy(r.level[i], offset.of)
	}
	r.lo[i], r.hi[i] = offset.lo, offset.hi
	if p.wornRoad != 0 {
		r.lower(i, r.constant(p.wornRoad), &r.n.road)
	}
	if p.wornCircuit != 0 {
		r.lower(i, r.constant(p.wornCircuit), &r.n.circuit)
	}
}

// lower takes an effect off a point.
func (r *run) lower(i int, e *effect, f *factor) {
	r.bound(i, e, f)
	r.draws.lower(r.level[i], e, f)
}

func (r *run) bound(i int, e *effect, f *factor) {
	r.lo[i] -= float64(e.most * f.hi)
	r.hi[i] -= float64(e.least * f.lo)
}

// taken is what a leg takes from a point, and the factor it takes it by.
func (r *run) taken(i, j int) (*effect, *factor) {
	l := r.s.points[i].legs[j]
	switch u := &r.usages[j]; {
	case !u.circuit:
		return r.constant(l[1]), &r.n.road
	case u.summary:
		return r.effect(l), &r.n.summary
	default:
		return r.effect(l), &r.n.circuit
	}
}

// advance takes leg j from point i, unless it is before the first that counts,
// and gives the point's level.
func (r *run) advance(i, j, from int) []float64 {
	p := &r.s.points[i]
	if j >= from {
		if r.s.alone {
			r.restart(i)
		}
		if e, f := r.taken(i, j); e.most > 0 {
			r.lower(i, e, f)
		}
	}
	if p.cap != nil {
		r.hold(i, j)
	}
	return r.shown[i]
}

// hold keeps a point to what time, or the leg by itself, allows.
func (r *run) hold(i, j int) {
	p, level, shown := &r.s.points[i], r.level[i], r.shown[i]
	if !r.s.alone {
		for k, v := range level {
			shown[k] = min(v, p.cap[j])
		}
		return
	}
	for k, v := range level {
		shown[k] = min(shown[k], v-p.from+p.cap[j])
	}
}

// together says whether a leg can be taken, counted and gathered in one go.
func (w *worker) together(s *set, j, from int) bool {
	return j >= from && s.alike && !s.alone && s.points[0].cap == nil
}

// countAfter takes a leg from a point and counts its level, all in one go.
func (r *run) countAfter(i, j int) {
	e, f := r.taken(i, j)
	r.bound(i, e, f)
	r.column.open(r.lo[i], r.hi[i])
	if i > 0 && i == len(r.s.points)-1 {
		r.whole.open(slices.Min(r.lo), slices.Min(r.hi))
		r.lowerAndCountBoth(r.level[i], e, f, r.column, r.life, r.whole)
		return
	}
	r.lowerAndCount(r.level[i], e, f, r.column, r.life, i == 0)
}

// toTheEnd takes all legs from a point at once.
func (r *run) toTheEnd(i, from int) {
	var road float64
	var circuit, summary effect
	for j := from; j < len(r.usages); j++ {
		switch l := r.s.points[i].legs[j]; {
		case !r.usages[j].circuit:
			road += max(0, l[1])
		case r.usages[j].summary:
			summary.add(r.effect(l))
		default:
			circuit.add(r.effect(l))
		}
	}
	if road > 0 {
		r.lower(i, r.constant(road), &r.n.road)
	}
	if circuit.most > 0 {
		r.lower(i, &circuit, &r.n.circuit)
	}
	if summary.most > 0 {
		r.lower(i, &summary, &r.n.summary)
	}
}

// lifeScale is how the life left is kept while draws are gone through: where
// all points are alike, as the level of the worst; else as a share of a new
// one's, which is 0 at the limit.
func (s *set) lifeScale() (limit, scale float64) {
	p := &s.points[0]
	if s.alike {
		return p.Limit, 1 / (p.New - p.Limit)
	}
	return 0, 1
}

// gather keeps, draw by draw, what is left at the worst point so far, to the
// limit and to the margin.
func (r *run) gather(i int) {
	p, level := &r.s.points[i], r.shown[i]
	if r.s.alike {
		if i == 0 {
			copy(r.life, level)
			return
		}
		for k, v := range level {
			r.life[k] = min(r.life[k], v)
		}
		return
	}
	keepLeast(r.life, level, p.Limit, 1/(p.New-p.Limit), i == 0)
	keepLeast(r.early, level, p.Margin, 1/(p.New-p.Limit), i == 0)
}

// keepLeast lowers least to what is left of a column of levels above a line.
func keepLeast(least, level []float64, line, scale float64, first bool) {
	least = least[:len(level)]
	if first {
		for k, v := range level {
			least[k] = (v - line) * scale
		}
		return
	}
	for k, v := range level {
		least[k] = min(least[k], (v-line)*scale)
	}
}

// lifeBand is the band of the life left at the worst point; of a set of one
// point it is that point's band.
func (r *run) lifeBand(only Band, counted bool) Band {
	s, p := r.s, &r.s.points[0]
	band := only
	switch {
	case !s.alike:
		r.column.fill(r.life)
		band = r.column.band(r.life, 0, 0)
		band.PMargin = below(r.early, 0)
		return band
	case len(s.points) > 1:
		if !counted {
			r.whole.fill(r.life)
		}
		band = r.whole.band(r.life, p.Limit, p.Margin)
	}
	limit, scale := s.lifeScale()
	band.P5, band.P50, band.P95 = (band.P5-limit)*scale, (band.P50-limit)*scale, (band.P95-limit)*scale
	return band
}

// chances are those of the limit and the margin now.
func (r *run) chances() (b Band) {
	p := &r.s.points[0]
	if r.s.alike {
		b.PLimit, b.PMargin = below(r.life, p.Limit), below(r.life, p.Margin)
	} else {
		b.PLimit, b.PMargin = below(r.life, 0), below(r.early, 0)
	}
	return b
}

// median is that of the life left now.
func (r *run) median() float64 {
	limit, scale := r.s.lifeScale()
	r.column.fill(r.life)
	return (r.column.band(r.life, limit, limit).P50 - limit) * scale
}

// below is the share of a column at or below a line.
func below(x []float64, line float64) float64 {
	n := 0
	for _, v := range x {
		if v <= line {
			n++
		}
	}
	return float64(n) / float64(len(x))
}

// mostOften is the point that is now the worst of its set in most draws.
func (r *run) mostOften() int {
	best, most := 0, 0
	for i := range r.s.points {
		p := &r.s.points[i]
		line, scale := 0.0, 1.0
		if !r.s.alike {
			line, scale = p.Limit, 1/(p.New-p.Limit)
		}
		times := 0
		for k, v := range r.shown[i] {
			if (v-line)*scale <= r.life[k] {
				times++
			}
		}
		if times > most {
			best, most = i, times
		}
	}
	return best
}
