package projection

import (
	"math/rand/v2"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
)

// projection is what the draws say of one set.
type projection struct {
	Points [][]plan.Band // by point and leg
	set    []plan.Band   // by leg: share of life left at the worst point
	first  int           // the point that is the worst in most draws at the end
}

// noise is one set's own draws.
type noise struct {
	rates [ratesOfASet]*column
	start []*column // by point: the level with its gauge error, or a hub's drawn life; nil where it is known
}

// NoiseOf draws a set's rates and starts from its own streams, once. A renewed
// set keeps the rates of the one it follows: it is the same part on the same car.
func (w *Worker) NoiseOf(s *Set) *noise {
	if s.Noise != nil {
		return s.Noise
	}
	n := &noise{}
	if s.old != nil {
		n.rates = w.NoiseOf(s.old).rates
	} else {
		r := Stream(w.Seed, s.ID+" rates")
		road, circuit := w.rates(r, s)
		summary := w.lognormals(r, 0, s.Summary)
		for k := range summary {
			summary[k] *= circuit[k]
		}
		n.rates = [ratesOfASet]*column{onRoads: newColumn(road), onCircuits: newColumn(circuit), onSummaries: newColumn(summary)}
	}
	r := Stream(w.Seed, s.ID+" start")
	for i := range s.Levels {
		n.start = append(n.start, w.startOf(r, s, &s.Levels[i]))
	}
	s.Noise = n
	return n
}

// startOf draws where a point starts.
func (w *Worker) startOf(r *rand.Rand, s *Set, p *Level) *column {
	switch {
	case s.Lifetime && !s.failed:
		return newColumn(w.lives(r, s))
	case p.StartSD <= 0:
		return nil
	}
	out := w.normals(r)
	for k, z := range out {
		out[k] = p.From + float64(p.StartSD*z)
	}
	return newColumn(out)
}

// lives draws how long a bearing still good at an age will run on, L10 lives.
func (w *Worker) lives(r *rand.Rand, s *Set) []float64 {
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

// Worker projects one set after another, in scratch space of its own.
type Worker struct {
	*Draws
	Usages    []trip.Usage
	Life      []float64 // by draw: share of life left at the worst point, 0 at its limit
	early     []float64 // the same to the margin, see compare
	histogram *histogram
	columns   []*column             // for levels
	taken     int                   // how many of them the run under way has
	spreads   map[float64][]float64 // see growths
}

func NewWorker(d *Draws, usages []trip.Usage) *Worker {
	return &Worker{
		Draws: d, Usages: usages, histogram: newHistogram(d.N), spreads: map[float64][]float64{},
		Life: make([]float64, d.N), early: make([]float64, d.N),
	}
}

// column gives the run under way a column to keep levels in.
func (w *Worker) column() *column {
	if w.taken == len(w.columns) {
		w.columns = append(w.columns, &column{Of: make([]float64, w.N)})
	}
	w.taken++
	return w.columns[w.taken-1]
}

// Project follows a set through the legs from the given one on; legs before
// it take nothing.
func (w *Worker) Project(s *Set, from int) projection {
	out := projection{Points: make([][]plan.Band, len(s.Levels)), set: make([]plan.Band, len(w.Usages))}
	for i := range s.Levels {
		out.Points[i] = make([]plan.Band, len(w.Usages))
	}
	run := w.Start(s)
	for j := range w.Usages {
		if j > 0 && s.idle(j, from) {
			for i := range out.Points {
				out.Points[i][j] = out.Points[i][j-1]
			}
			out.set[j] = out.set[j-1]
			continue
		}
		run.Advance(j, from)
		for i, p := range s.Levels {
			out.Points[i][j] = w.histogram.band(run.Level[i], p.Limit, p.Margin)
		}
		out.set[j] = run.band()
	}
	out.first = run.mostOften()
	return out
}

// Outcome is project for the set alone: by leg its chances, and at the end, or
// after every leg, the whole band.
func (w *Worker) Outcome(s *Set, from int, everyMedian bool) []plan.Band {
	out := make([]plan.Band, len(w.Usages))
	run := w.Start(s)
	for j := range w.Usages {
		if j > 0 && s.idle(j, from) {
			out[j] = out[j-1]
			continue
		}
		run.Advance(j, from)
		if everyMedian {
			out[j] = run.band()
		} else {
			out[j] = run.chances()
		}
	}
	out[len(out)-1] = run.band()
	return out
}

// End is outcome at the end alone.
func (w *Worker) End(s *Set, from int) plan.Band {
	run := w.Start(s)
	run.finish(from)
	return run.band()
}

// idle says whether a leg changes nothing for the set.
func (s *Set) idle(j, from int) bool {
	for _, p := range s.Levels {
		if p.Ceiling != nil || (j >= from && p.Legs[j][1] != 0) {
			return false
		}
	}
	return true
}
