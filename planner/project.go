package planner

import (
	"math/rand/v2"
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
	of     []float64 // nil where it is lo in every draw
	lo, hi float64
}

func newFactor(of []float64) factor {
	least, most := extremes(of)
	return factor{of, least, most}
}

// noiseOf draws a set's factors from its own streams, once. A renewed set
// keeps the rates of the one it follows: it is the same part on the same car.
func (w *worker) noiseOf(s *set) *noise {
	if s.noise != nil {
		return s.noise
	}
	n := &noise{}
	if s.old != nil {
		*n = *w.noiseOf(s.old)
		n.offset = nil
	} else {
		r := stream(w.seed, s.ID+" rates")
		road, circuit := w.rates(r, s)
		summary := w.factors(r, 0, s.summary)
		for k := range summary {
			summary[k] *= circuit[k]
		}
		n.road, n.circuit, n.summary = newFactor(road), newFactor(circuit), newFactor(summary)
	}
	r := stream(w.seed, s.ID+" start")
	for _, p := range s.points {
		n.offset = append(n.offset, w.offset(r, s, p))
	}
	s.noise = n
	return n
}

// offset draws where a point starts.
func (w *worker) offset(r *rand.Rand, s *set, p point) factor {
	lives := s.lifetime && !s.failed
	if !lives && p.gauge <= 0 {
		return factor{nil, p.from, p.from}
	}
	if lives {
		return newFactor(w.lives(r, s))
	}
	out := w.normals(r)
	for k, z := range out {
		out[k] = p.from + float64(p.gauge*z)
	}
	return newFactor(out)
}

// lives draws how long a bearing still good at an age will run on, L10 lives.
func (w *worker) lives(r *rand.Rand, s *set) []float64 {
	sampler := w.hubs.At(s.age)
	if s.hub != nil {
		sampler = s.hub.At(s.age)
	}
	out, second := w.uniforms(r), w.uniforms(r)
	for k, first := range out {
		out[k] = sampler.Draw(first, second[k])
	}
	return out
}

// worker holds the scratch space of a projection.
type worker struct {
	*draws
	usages  []usage
	life    []float64 // what is left at the worst point, see lifeScale
	early   []float64 // the same to the margin
	column  *histogram
	whole   *histogram  // of life
	spare   [][]float64 // columns to write to
	effects map[loss]*effect
	spreads map[float64][]float64 // see growths
}

func newWorker(d *draws, usages []usage) *worker {
	return &worker{
		draws: d, usages: usages,
		life: make([]float64, d.n), early: make([]float64, d.n),
		column: newHistogram(d.n), whole: newHistogram(d.n), effects: map[loss]*effect{}, spreads: map[float64][]float64{},
	}
}

// project follows a set through the legs from the given one on; legs before
// it take nothing.
func (w *worker) project(s *set, from int) projection {
	out := projection{points: make([][]Band, len(s.points)), set: make([]Band, len(w.usages))}
	for i := range s.points {
		out.points[i] = make([]Band, len(w.usages))
	}
	run := w.start(s)
	for j := range w.usages {
		if j > 0 && s.idle(j, from) {
			for i := range out.points {
				out.points[i][j] = out.points[i][j-1]
			}
			out.set[j] = out.set[j-1]
			continue
		}
		together := w.together(s, j, from)
		for i := range s.points {
			p := &s.points[i]
			if together {
				run.countAfter(i, j)
			} else {
				w.column.fill(run.advance(i, j, from))
				run.gather(i)
			}
			out.points[i][j] = w.column.band(run.shown[i], p.Limit, p.Margin)
		}
		out.set[j] = run.lifeBand(out.points[0][j], together)
	}
	out.first = run.mostOften()
	w.release(run)
	return out
}

// outcome is project for the set alone, without the bands: its chances by
// leg, and the median of the life left, at the end or after every leg.
func (w *worker) outcome(s *set, from int, everyMedian bool) []Band {
	out := make([]Band, len(w.usages))
	run := w.start(s)
	for j := range w.usages {
		if j > 0 && s.idle(j, from) {
			out[j] = out[j-1]
			continue
		}
		for i := range s.points {
			run.advance(i, j, from)
			run.gather(i)
		}
		out[j] = run.chances()
		if everyMedian {
			out[j].P50 = run.median()
		}
	}
	if !everyMedian {
		out[len(out)-1].P50 = run.median()
	}
	w.release(run)
	return out
}

// end is outcome at the end alone.
func (w *worker) end(s *set, from int) Band {
	run := w.start(s)
	for i, p := range s.points {
		if p.cap == nil && !s.alone {
			run.toTheEnd(i, from)
		} else {
			for j := range w.usages {
				run.advance(i, j, from)
			}
		}
		run.gather(i)
	}
	out := run.chances()
	out.P50 = run.median()
	w.release(run)
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
