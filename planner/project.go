package planner

import "math/rand/v2"

// projection is what the draws say of one set.
type projection struct {
	points [][]Band // by point and leg
	set    []Band   // by leg: share of life left at the worst point
	first  int      // the point that is the worst in most draws at the end
}

// noise is one set's own draws.
type noise struct {
	rates [ratesOfASet]*column
	start []*column // by point: the level with its gauge error, or a hub's drawn life; nil where it is known
}

// noiseOf draws a set's rates and starts from its own streams, once. A renewed
// set keeps the rates of the one it follows: it is the same part on the same car.
func (w *worker) noiseOf(s *set) *noise {
	if s.noise != nil {
		return s.noise
	}
	n := &noise{}
	if s.old != nil {
		n.rates = w.noiseOf(s.old).rates
	} else {
		r := stream(w.seed, s.ID+" rates")
		road, circuit := w.rates(r, s)
		summary := w.lognormals(r, 0, s.summary)
		for k := range summary {
			summary[k] *= circuit[k]
		}
		n.rates = [ratesOfASet]*column{onRoads: newColumn(road), onCircuits: newColumn(circuit), onSummaries: newColumn(summary)}
	}
	r := stream(w.seed, s.ID+" start")
	for i := range s.points {
		n.start = append(n.start, w.startOf(r, s, &s.points[i]))
	}
	s.noise = n
	return n
}

// startOf draws where a point starts.
func (w *worker) startOf(r *rand.Rand, s *set, p *point) *column {
	switch {
	case s.lifetime && !s.failed:
		return newColumn(w.lives(r, s))
	case p.gauge <= 0:
		return nil
	}
	out := w.normals(r)
	for k, z := range out {
		out[k] = p.from + float64(p.gauge*z)
	}
	return newColumn(out)
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

// worker projects one set after another, in scratch space of its own.
type worker struct {
	*draws
	usages    []usage
	life      []float64 // by draw: share of life left at the worst point, 0 at its limit
	early     []float64 // the same to the margin, see compare
	histogram *histogram
	columns   []*column             // for levels
	taken     int                   // how many of them the run under way has
	spreads   map[float64][]float64 // see growths
}

func newWorker(d *draws, usages []usage) *worker {
	return &worker{
		draws: d, usages: usages, histogram: newHistogram(d.n), spreads: map[float64][]float64{},
		life: make([]float64, d.n), early: make([]float64, d.n),
	}
}

// column gives the run under way a column to keep levels in.
func (w *worker) column() *column {
	if w.taken == len(w.columns) {
		w.columns = append(w.columns, &column{of: make([]float64, w.n)})
	}
	w.taken++
	return w.columns[w.taken-1]
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
		run.advance(j, from)
		for i, p := range s.points {
			out.points[i][j] = w.histogram.band(run.level[i], p.Limit, p.Margin)
		}
		out.set[j] = run.band()
	}
	out.first = run.mostOften()
	return out
}

// outcome is project for the set alone: by leg its chances, and at the end, or
// after every leg, the whole band.
func (w *worker) outcome(s *set, from int, everyMedian bool) []Band {
	out := make([]Band, len(w.usages))
	run := w.start(s)
	for j := range w.usages {
		if j > 0 && s.idle(j, from) {
			out[j] = out[j-1]
			continue
		}
		run.advance(j, from)
		if everyMedian {
			out[j] = run.band()
		} else {
			out[j] = run.chances()
		}
	}
	out[len(out)-1] = run.band()
	return out
}

// end is outcome at the end alone.
func (w *worker) end(s *set, from int) Band {
	run := w.start(s)
	run.finish(from)
	return run.band()
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
