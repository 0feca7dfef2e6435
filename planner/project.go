package planner

import (
	"math/rand/v2"
	"slices"
)

// bandShares are the quantiles of a band.
var bandShares = []float64{0.05, 0.50, 0.95}

// projection is what the draws say of one set.
type projection struct {
	points [][]Band // by point and leg
	set    []Band   // by leg: share of life left at the worst point
	first  int
}

// noise is one set's own draws.
type noise struct {
	road, circuit, summary factor
	offset                 []factor // by point: the start with its gauge error, or a hub's drawn life
}

// factor is a figure of every draw, with its extremes.
type factor struct {
	of     []float64
	lo, hi float64
}

func newFactor(of []float64) factor {
	return factor{of, slices.Min(of), slices.Max(of)}
}

// noiseOf draws a set's factors from its own streams, once. A renewed set
// keeps the rates of the one it follows: it is the same part on the same car.
func (d *draws) noiseOf(s *set) *noise {
	if s.noise != nil {
		return s.noise
	}
	n := &noise{}
	if s.old != nil {
		*n = *d.noiseOf(s.old)
		n.offset = nil
	} else {
		r := stream(d.seed, s.ID+" rates")
		road, circuit := s.rates(r, d.n)
		summary := factors(r, d.n, s.summary)
		for k := range summary {
			summary[k] *= circuit[k]
		}
		n.road, n.circuit, n.summary = newFactor(road), newFactor(circuit), newFactor(summary)
	}
	r := stream(d.seed, s.ID+" start")
	for _, p := range s.points {
		offset := make([]float64, d.n)
		if s.lifetime && !s.failed {
			d.lives(r, s, offset)
		} else {
			for k := range offset {
				offset[k] = p.from
				if p.gauge > 0 {
					offset[k] += p.gauge * r.NormFloat64()
				}
			}
		}
		n.offset = append(n.offset, newFactor(offset))
	}
	s.noise = n
	return n
}

// lives draws how long a bearing still good at an age will run on, L10 lives.
func (d *draws) lives(r *rand.Rand, s *set, out []float64) {
	sampler := d.hubs.At(s.age)
	if s.hub != nil {
		sampler = s.hub.At(s.age)
	}
	for k := range out {
		out[k] = sampler.Draw(r.Float64(), r.Float64())
	}
}

// running is what a point has lost so far: on the road, and by class of pace
// on circuits known corner by corner and on circuits known by their summary.
type running struct {
	road             float64
	corners, summary byClass
	low              []float64 // lowest level so far, where each leg stands alone
}

// take adds a leg.
func (t *running) take(l loss, u usage, alone bool) {
	if alone {
		t.road, t.corners, t.summary = 0, byClass{}, byClass{}
	}
	switch {
	case !u.circuit:
		t.road += l[1]
	case u.summary:
		l.addTo(&t.summary)
	default:
		l.addTo(&t.corners)
	}
}

// bounds are the levels that no draw can leave.
func (t *running) bounds(n *noise, i int) (lo, hi float64) {
	least, most := t.corners.extremes()
	leastBrief, mostBrief := t.summary.extremes()
	lo = n.offset[i].lo - t.road*n.road.hi - most*n.circuit.hi - mostBrief*n.summary.hi
	hi = n.offset[i].hi - t.road*n.road.lo - least*n.circuit.lo - leastBrief*n.summary.lo
	return lo, hi
}

// worker holds the scratch space of a projection.
type worker struct {
	*draws
	usages []usage
	level  []float64
	life   []float64 // share of life left at the worst point
	early  []float64 // the same to the margin
	column *histogram
}

func newWorker(d *draws, usages []usage) *worker {
	return &worker{
		draws: d, usages: usages,
		level: make([]float64, d.n), life: make([]float64, d.n), early: make([]float64, d.n),
		column: newHistogram(d.n),
	}
}

// project follows a set through the legs from the given one on; legs before
// it take nothing.
func (w *worker) project(s *set, from int) projection {
	out := projection{points: make([][]Band, len(s.points)), set: make([]Band, len(w.usages))}
	for i := range s.points {
		out.points[i] = make([]Band, len(w.usages))
	}
	n := w.noiseOf(s)
	lost := s.unused()
	for j := range w.usages {
		if j > 0 && s.idle(j, from) {
			for i := range out.points {
				out.points[i][j] = out.points[i][j-1]
			}
			out.set[j] = out.set[j-1]
			continue
		}
		for i := range s.points {
			p := &s.points[i]
			w.advance(s, lost, n, i, j, from)
			if p.cap == nil {
				w.column.open(lost[i].bounds(n, i))
				w.column.count(w.level)
			} else {
				w.column.fill(w.level)
			}
			out.points[i][j] = w.column.band(w.level, p.Limit, p.Margin)
			w.gather(s, i)
		}
		w.column.fill(w.life)
		out.set[j] = w.column.band(w.life, 0, s.early())
		if !s.alike {
			out.set[j].PMargin = w.below(w.early, 0)
		}
	}
	out.first = w.mostOften(s, lost, n)
	return out
}

// outcome is project for the set alone, without the bands: its chances by
// leg, and the median of the life left, at the end or after every leg.
func (w *worker) outcome(s *set, from int, everyMedian bool) []Band {
	out := make([]Band, len(w.usages))
	n := w.noiseOf(s)
	lost := s.unused()
	for j := range w.usages {
		if j > 0 && s.idle(j, from) {
			out[j] = out[j-1]
			continue
		}
		for i := range s.points {
			w.advance(s, lost, n, i, j, from)
			w.gather(s, i)
		}
		out[j].PLimit = w.below(w.life, 0)
		if s.alike {
			out[j].PMargin = w.below(w.life, s.early())
		} else {
			out[j].PMargin = w.below(w.early, 0)
		}
		if everyMedian {
			out[j].P50 = w.median()
		}
	}
	if !everyMedian {
		out[len(out)-1].P50 = w.median()
	}
	return out
}

// median is that of the life left now.
func (w *worker) median() float64 {
	w.column.fill(w.life)
	return w.column.band(w.life, 0, 0).P50
}

// advance takes leg j from point i and fills w.level.
func (w *worker) advance(s *set, lost []running, n *noise, i, j, from int) {
	p := &s.points[i]
	if j >= from {
		lost[i].take(p.legs[j], w.usages[j], s.alone)
	}
	w.levels(p, &lost[i], n, i, j, s.alone)
}

// early is the share of life left at the margin.
func (s *set) early() float64 {
	p := &s.points[0]
	return (p.Margin - p.Limit) / (p.New - p.Limit)
}

// below is the share of a column at or below a line.
func (w *worker) below(x []float64, line float64) float64 {
	n := 0
	for _, v := range x {
		if v <= line {
			n++
		}
	}
	return float64(n) / float64(len(x))
}

// unused is what the points have lost when the trip begins.
func (s *set) unused() []running {
	lost := make([]running, len(s.points))
	for i, p := range s.points {
		lost[i].road = p.wornRoad
		for c := range lost[i].corners {
			lost[i].corners[c] = p.wornCircuit
		}
	}
	return lost
}

// idle says whether a leg changes nothing for the set.
func (s *set) idle(j, from int) bool {
	for _, p := range s.points {
		if p.cap != nil || (j >= from && p.legs[j][1] != 0) {
			return false
		}
	}
	return true
}

// levels fills w.level with a point's level in every draw.
func (w *worker) levels(p *point, lost *running, n *noise, i, j int, alone bool) {
	for c := range classes {
		from, to := w.class(c)
		level, offset := w.level[from:to], n.offset[i].of[from:to]
		road, circuit, summary := n.road.of[from:to], n.circuit.of[from:to], n.summary.of[from:to]
		onRoad, onCorners, onSummary := lost.road, lost.corners[c], lost.summary[c]
		for k := range level {
			level[k] = offset[k] - onRoad*road[k] - onCorners*circuit[k] - onSummary*summary[k]
		}
	}
	if p.cap != nil {
		w.capped(p, lost, j, alone)
	}
}

// capped holds w.level to what time, or the leg by itself, allows.
func (w *worker) capped(p *point, lost *running, j int, alone bool) {
	if !alone {
		for k := range w.level {
			w.level[k] = min(w.level[k], p.cap[j])
		}
		return
	}
	if lost.low == nil {
		lost.low = make([]float64, w.n)
		for k := range lost.low {
			lost.low[k] = p.New
		}
	}
	for k := range w.level {
		lost.low[k] = min(lost.low[k], w.level[k]-p.from+p.cap[j])
		w.level[k] = lost.low[k]
	}
}

// gather keeps, draw by draw, the share of life left at the worst point so
// far, to the limit and to the margin.
func (w *worker) gather(s *set, i int) {
	p := &s.points[i]
	keepLeast(w.life, w.level, p.Limit, 1/(p.New-p.Limit), i == 0)
	if !s.alike {
		keepLeast(w.early, w.level, p.Margin, 1/(p.New-p.Limit), i == 0)
	}
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

// mostOften is the point that is at the end the worst of its set in most
// draws.
func (w *worker) mostOften(s *set, lost []running, n *noise) int {
	best, most := 0, 0
	last := len(w.usages) - 1
	for i := range s.points {
		p := &s.points[i]
		w.levels(p, &lost[i], n, i, last, s.alone)
		scale := 1 / (p.New - p.Limit)
		times := 0
		for k, v := range w.level {
			if (v-p.Limit)*scale <= w.life[k] {
				times++
			}
		}
		if times > most {
			best, most = i, times
		}
	}
	return best
}
