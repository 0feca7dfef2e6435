package projection

import (
	"math"
	"math/rand/v2"
	"slices"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
)

// bandsOfSet is what the draws say of one set.
type bandsOfSet struct {
	Points [][]plan.Band // by point and leg
	Set    []plan.Band   // by leg: share of life left at the worst point
	First  int           // the point that is the worst in most draws at the end
}

// noise is one set's own draws.
type noise struct {
	rates map[driven]*column // what multiplies the losses of a leg
	own   []*column          // by point: what multiplies its losses beside that; nil for nothing
	logs  [][]float64        // of the posterior; nil where the logbook says nothing
	start []*column          // by point: the level with its gauge error, or a hub's drawn life; nil where it is known
	not   []float64          // share of the doubtful wear that is not the set's own; nil where none is doubtful
	lives []float64          // drawn, of a set that ends by a failure
}

// noiseOf draws a set's rates and starts from its own streams, once. A
// replacement keeps the rates of the set it replaces: it is the same part on
// the same car.
func (w *Worker) noiseOf(s *Set) *noise {
	if s.noise != nil {
		return s.noise
	}
	n := &noise{}
	if s.replaces != nil {
		n.rates, n.own = w.noiseOf(s.replaces).rates, w.noiseOf(s.replaces).own
	} else {
		w.drawRates(n, s)
	}
	r := Stream(w.Seed, s.ID+" start")
	if s.Lifetime && n.lives == nil {
		n.lives, _ = w.hubLives(r, s)
	}
	for i := range s.Levels {
		n.start = append(n.start, w.startOf(r, n, s, &s.Levels[i]))
	}
	if slices.ContainsFunc(s.Levels, func(p Level) bool { return p.doubtful > 0 }) {
		n.not = w.uniforms(Stream(w.Seed, s.ID+" since"))
	}
	s.noise = n
	return n
}

// drawRates draws what multiplies a set's losses.
func (w *Worker) drawRates(n *noise, s *Set) {
	r, post := Stream(w.Seed, s.ID+" rates"), s.Rates
	var road, circuit []float64
	if post.Mean == nil {
		road, circuit = w.lognormals(r, 0, s.RoadSD), w.lognormals(r, 0, s.CircuitSD)
	} else {
		n.logs = w.logs(r, post)
		road, circuit = exponentials(n.logs[onRoads]), exponentials(n.logs[onCircuits])
	}
	if s.Lifetime {
		n.lives, road = w.hubLives(r, s)
	}
	n.own = make([]*column, len(s.Levels))
	for i, p := range s.Levels {
		if at, ok := post.Points[PointKey(p.Place, p.Zone)]; ok {
			n.own[i] = newColumn(exponentials(n.logs[at]))
		}
	}
	n.rates = map[driven]*column{{road: true}: newColumn(road)}
	var scales []float64
	if post.Visit.Scale > 0 {
		scales = w.scales(r, post.Visit)
	}
	circuits := map[driven][]float64{} // but for the visit, what sets a circuit apart
	add := func(d driven) {
		if _, drawn := n.rates[d]; drawn {
			return
		}
		of := d
		of.visit = 0
		apart, drawn := circuits[of]
		at, known := post.Circuits[d.circuit]
		switch spread := post.Apart; {
		case drawn:
		case known:
			apart = exponentials(n.logs[at])
		case !known:
			if d.summary {
				spread = math.Hypot(spread, s.SummarySD)
			}
			apart = w.lognormals(r, 0, spread)
		}
		circuits[of] = apart
		out := make([]float64, w.N)
		for k := range out {
			out[k] = circuit[k] * apart[k]
		}
		if scales != nil {
			for k, v := range w.scatters(r, scales) {
				out[k] *= v
			}
		}
		n.rates[d] = newColumn(out)
	}
	for i := range w.Usages {
		add(post.driven(&w.Usages[i]))
	}
	add(driven{})
}

func exponentials(logs []float64) []float64 {
	out := make([]float64, len(logs))
	for k, v := range logs {
		out[k] = math.Exp(v)
	}
	return out
}

// startOf draws where a point starts.
func (w *Worker) startOf(r *rand.Rand, n *noise, s *Set, p *Level) *column {
	switch {
	case s.Lifetime && !s.failedNow:
		return newColumn(n.lives)
	case p.tied > 0:
		out := slices.Clone(n.logs[p.tied])
		for k := range out {
			out[k] += p.From
		}
		return newColumn(out)
	case p.StartSD <= 0:
		return nil
	}
	out := w.normals(r)
	for k, z := range out {
		out[k] = p.From + float64(p.StartSD*z)
	}
	return newColumn(out)
}

// Worker projects one set after another, in scratch space of its own.
type Worker struct {
	*Draws
	Usages      []trip.Usage
	Life        []float64 // by draw: share of life left at the worst point now, 0 at its limit
	toMargin    []float64 // the same above the margin, see compare
	histogram   *histogram
	columns     []*column             // for levels
	columnsUsed int                   // how many of them the run has in use
	spreads     map[float64][]float64 // see growths
}

func NewWorker(d *Draws, usages []trip.Usage) *Worker {
	return &Worker{
		Draws: d, Usages: usages, histogram: newHistogram(d.N), spreads: map[float64][]float64{},
		Life: make([]float64, d.N), toMargin: make([]float64, d.N),
	}
}

// column gives the run another column to keep levels in.
func (w *Worker) column() *column {
	if w.columnsUsed == len(w.columns) {
		w.columns = append(w.columns, &column{Values: make([]float64, w.N)})
	}
	w.columnsUsed++
	return w.columns[w.columnsUsed-1]
}

// ProjectAsIs projects a set as the car stands.
func (s *Set) ProjectAsIs(w *Worker, legs int) {
	asIs := w.Project(s, 0)
	for i := range s.Levels {
		s.Levels[i].After = asIs.Points[i]
		s.Points = append(s.Points, s.Levels[i].Point)
	}
	s.After, s.First = asIs.Set, asIs.First
	s.RoadSpread, s.CircuitSpread, s.SummarySpread = s.RoadSD, s.CircuitSD, s.SummarySD
	s.Used = make([]float64, legs)
	first := s.Levels[s.First]
	for j, taken := range first.Loss {
		if s.PerLeg {
			taken = 0
		}
		s.Used[j] = taken / (first.New - first.Limit)
		if taken > 0 && (s.Most < 0 || taken > first.Loss[s.Most]) {
			s.Most = j
		}
	}
}

// Project follows a set through the legs from the given one on; legs before
// it take nothing.
func (w *Worker) Project(s *Set, from int) bandsOfSet {
	out := bandsOfSet{Points: make([][]plan.Band, len(s.Levels)), Set: make([]plan.Band, len(w.Usages))}
	for i := range s.Levels {
		out.Points[i] = make([]plan.Band, len(w.Usages))
	}
	run := w.Start(s)
	for j := range w.Usages {
		if j > 0 && s.idle(j, from) {
			for i := range out.Points {
				out.Points[i][j] = out.Points[i][j-1]
			}
			out.Set[j] = out.Set[j-1]
			continue
		}
		run.Advance(j, from)
		for i, p := range s.Levels {
			out.Points[i][j] = w.histogram.band(run.Level[i], p.Limit, p.Margin)
		}
		out.Set[j] = run.band()
	}
	out.First = run.mostOften()
	return out
}

// Outcome is Project for the set alone: by leg its chances, and at the end, or
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

// OutcomeAtEnd is the band of Outcome after the last leg.
func (w *Worker) OutcomeAtEnd(s *Set, from int) plan.Band {
	run := w.Start(s)
	run.finish(from)
	return run.band()
}

// idle says whether a leg changes nothing for the set.
func (s *Set) idle(j, from int) bool {
	for _, p := range s.Levels {
		if p.Ceiling != nil || (j >= from && p.LegLoss[j][1] != 0) {
			return false
		}
	}
	return true
}
