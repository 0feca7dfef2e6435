package planner

import "math/rand/v2"

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
	road, circuit, summary []float64
	offset                 [][]float64 // by point: gauge error, or a hub's drawn life
}

// noiseOf draws a set's factors from its own stream.
func (d *draws) noiseOf(s *set) noise {
	r := stream(d.seed, s.ID)
	n := noise{
		road:    factors(r, d.n, s.road),
		circuit: factors(r, d.n, s.circuit),
		summary: factors(r, d.n, s.summary),
		offset:  make([][]float64, len(s.points)),
	}
	for k := range n.summary {
		n.summary[k] *= n.circuit[k]
	}
	for i, p := range s.points {
		n.offset[i] = make([]float64, d.n)
		switch {
		case s.lifetime:
			d.lives(r, s.age, n.offset[i])
		case p.gauge > 0:
			for k := range n.offset[i] {
				n.offset[i][k] = p.Start + p.gauge*r.NormFloat64()
			}
		default:
			for k := range n.offset[i] {
				n.offset[i][k] = p.Start
			}
		}
	}
	return n
}

// lives draws how long a bearing still good at an age will run on, L10 lives.
func (d *draws) lives(r *rand.Rand, age float64, out []float64) {
	sampler := d.hubs.At(age)
	for k := range out {
		out[k] = sampler.Draw(r.Float64(), r.Float64())
	}
}

// running is what a point has lost so far: on the road, and by pace on
// circuits known corner by corner and on circuits known by their summary.
type running struct {
	road             float64
	corners, summary [knots]float64
	low              []float64 // lowest level so far, where each leg stands alone
}

// take adds a leg.
func (t *running) take(l loss, u usage, alone bool) {
	if alone {
		t.road, t.corners, t.summary = 0, [knots]float64{}, [knots]float64{}
	}
	switch {
	case !u.circuit:
		t.road += l[1]
	case u.summary:
		l.paceTable(&t.summary)
	default:
		l.paceTable(&t.corners)
	}
}

// worker holds the scratch space of a projection.
type worker struct {
	*draws
	usages []usage
	level  []float64
	life   []float64 // share of life left at the worst point
	early  []float64 // the same, counted to the margin
	at     []int32   // the worst point
	q      quantiles
}

func newWorker(d *draws, usages []usage) *worker {
	return &worker{
		draws: d, usages: usages,
		level: make([]float64, d.n), life: make([]float64, d.n),
		early: make([]float64, d.n), at: make([]int32, d.n),
	}
}

// project follows a set through the legs from the given one on; legs before
// it take nothing. With bands it also finds the quantiles.
func (w *worker) project(s *set, from int, bands bool) projection {
	n := w.noiseOf(s)
	legs := len(w.usages)
	out := projection{points: make([][]Band, len(s.points)), set: make([]Band, legs)}
	lost := make([]running, len(s.points))
	for i, p := range s.points {
		out.points[i] = make([]Band, legs)
		lost[i].road = p.wornRoad
		for z := range lost[i].corners {
			lost[i].corners[z] = p.wornCircuit
		}
	}
	for j := range legs {
		if j > 0 && s.idle(j, from) {
			for i := range out.points {
				out.points[i][j] = out.points[i][j-1]
			}
			out.set[j] = out.set[j-1]
			continue
		}
		for i := range s.points {
			if j >= from {
				lost[i].take(s.points[i].legs[j], w.usages[j], s.alone)
			}
			w.levels(&s.points[i], &lost[i], n, i, j, s.alone)
			out.points[i][j] = w.band(&s.points[i], bands)
			w.worst(&s.points[i], i)
		}
		out.set[j] = w.setBand(bands)
	}
	out.first = w.mostOften(len(s.points))
	return out
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

// levels fills w.level with the point's level after leg j in every draw.
func (w *worker) levels(p *point, lost *running, n noise, i, j int, alone bool) {
	offset := n.offset[i]
	for k := range w.level {
		z, f := w.knot[k], w.frac[k]
		c := lost.corners[z] + f*(lost.corners[z+1]-lost.corners[z])
		b := lost.summary[z] + f*(lost.summary[z+1]-lost.summary[z])
		w.level[k] = offset[k] - lost.road*n.road[k] - c*n.circuit[k] - b*n.summary[k]
	}
	if p.cap == nil {
		return
	}
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
		lost.low[k] = min(lost.low[k], w.level[k]-p.Start+p.cap[j])
		w.level[k] = lost.low[k]
	}
}

// band summarises w.level.
func (w *worker) band(p *point, quantiles bool) Band {
	var limit, margin int
	for _, v := range w.level {
		if v <= p.Limit {
			limit++
		}
		if v <= p.Margin {
			margin++
		}
	}
	b := Band{PLimit: float64(limit) / float64(w.n), PMargin: float64(margin) / float64(w.n)}
	if quantiles {
		w.fill(&b, w.level)
	}
	return b
}

func (w *worker) fill(b *Band, x []float64) {
	var q [3]float64
	w.q.at(x, bandShares, q[:])
	b.P5, b.P50, b.P95 = q[0], q[1], q[2]
}

// worst keeps, draw by draw, the point with the least life left.
func (w *worker) worst(p *point, i int) {
	scale := 1 / (p.New - p.Limit)
	for k, v := range w.level {
		life, early := (v-p.Limit)*scale, (v-p.Margin)*scale
		if i == 0 || life < w.life[k] {
			w.life[k], w.at[k] = life, int32(i)
		}
		if i == 0 || early < w.early[k] {
			w.early[k] = early
		}
	}
}

// setBand summarises the set's worst point.
func (w *worker) setBand(quantiles bool) Band {
	var limit, margin int
	for k := range w.life {
		if w.life[k] <= 0 {
			limit++
		}
		if w.early[k] <= 0 {
			margin++
		}
	}
	b := Band{PLimit: float64(limit) / float64(w.n), PMargin: float64(margin) / float64(w.n)}
	if quantiles {
		w.fill(&b, w.life)
	}
	return b
}

// mostOften is the point that is the worst in most draws.
func (w *worker) mostOften(points int) int {
	count := make([]int, points)
	best := 0
	for _, i := range w.at {
		count[i]++
	}
	for i := range count {
		if count[i] > count[best] {
			best = i
		}
	}
	return best
}
