package learning

import (
	"cmp"
	"math"
	"slices"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
)

// Classes of possible readings, and the least gain worth saying. Engineering
// choices.
const (
	readClasses = 25
	leastGain   = 0.005
)

// Next looks for the reading of a tread or a pad that reduces the risk of a
// wrong decision most, before leaving or after any leg but the last.
func Next(way *trip.Journey, sets []*projection.Set, d *projection.Draws) *plan.Next {
	var best *plan.Next
	w := projection.NewWorker(d, way.Usages)
	for _, s := range sets {
		if !s.Kind.Info().Rated {
			continue
		}
		n := valueOfReading(w, s, way.Legs)
		if n != nil && n.Risk-n.After >= leastGain && (best == nil || n.Risk-n.After > best.Risk-best.After) {
			best = n
		}
	}
	return best
}

// valueOfReading finds the best moment to read a set's first point.
func valueOfReading(w *projection.Worker, s *projection.Set, legs []plan.Leg) *plan.Next {
	gauge := 0.0
	first := s.Levels[s.First]
	for _, p := range s.Levels {
		gauge = math.Max(gauge, p.StartSD)
	}
	if gauge == 0 {
		gauge = first.Reading
	}
	run := w.Start(s)
	read := [][]float64{slices.Clone(run.Level[s.First].Values)} // before leaving, then after each leg
	crossed := [][]bool{make([]bool, w.N)}
	for j := range w.Usages {
		run.Advance(j, 0)
		read = append(read, slices.Clone(run.Level[s.First].Values))
		out := make([]bool, w.N)
		for k, v := range w.Life {
			out[k] = v <= 0
		}
		crossed = append(crossed, out)
	}
	end := crossed[len(crossed)-1]
	risk := wrongShare(end)
	best := &plan.Next{Set: s.ID, Name: s.Name, Place: first.Place, Zone: first.Zone, Risk: risk, After: risk}
	random := projection.Stream(w.Seed, s.ID+" next")
	for j := range len(read) - 1 {
		for k := range read[j] {
			read[j][k] += float64(gauge * random.NormFloat64())
		}
		if after := afterReading(read[j], crossed[j], end); after < best.After-1e-9 {
			best.After, best.When = after, "before leaving"
			if j > 0 {
				best.When = legs[j-1].Name
			}
		}
	}
	if best.When == "" {
		return nil
	}
	return best
}

// wrongShare is how often the better of leaving a set and acting on it is wrong.
func wrongShare(ends []bool) float64 {
	p := 0.0
	for _, e := range ends {
		if e {
			p++
		}
	}
	p /= float64(max(1, len(ends)))
	return math.Min(p, 1-p)
}

// afterReading is how often the decision is still wrong once it can follow the
// reading. Where the limit is crossed before, it comes too late.
func afterReading(read []float64, crossed, end []bool) float64 {
	var open []int
	for k := range read {
		if !crossed[k] {
			open = append(open, k)
		}
	}
	slices.SortFunc(open, func(a, b int) int { return cmp.Compare(read[a], read[b]) })
	late := float64(len(read)-len(open)) / float64(len(read))
	sum := 0.0
	for c := range readClasses {
		class := open[c*len(open)/readClasses : (c+1)*len(open)/readClasses]
		ends := make([]bool, len(class))
		for i, k := range class {
			ends[i] = end[k]
		}
		sum += wrongShare(ends) * float64(len(class)) / float64(len(read))
	}
	return late + sum
}
