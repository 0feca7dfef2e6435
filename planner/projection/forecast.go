package projection

import (
	"math"
	"math/rand/v2"
)

// Ahead is a point that is to be forecast: its last reading, and what the driving
// since takes from it by the model.
type Ahead struct {
	Place, Zone string
	From        float64
	Road        float64
	Visits      []Visit
}

// Visit is what a visit takes from a point at the plan's pace, and how the log of
// that grows with a spread of pace.
type Visit struct {
	Number  int
	Circuit string
	Taken   float64
	Slope   float64
}

// Forecast draws the levels of some points of a set after some driving past their
// last readings: by point and draw.
func (r RatePosterior) Forecast(d *Draws, stream *rand.Rand, points []Ahead) [][]float64 {
	w := NewWorker(d, nil)
	logs := d.logs(stream, r)
	zero := make([]float64, d.N)
	row := func(of map[string]int, key string) []float64 {
		if i, ok := of[key]; ok {
			return logs[i]
		}
		return zero
	}
	type drawn struct{ scatter, pace []float64 }
	visits, scales := map[int]drawn{}, w.scales(stream, r.Visit)
	out := make([][]float64, len(points))
	for i, p := range points {
		own, levels := row(r.Points, PointKey(p.Place, p.Zone)), make([]float64, d.N)
		for k := range levels {
			levels[k] = p.From - float64(p.Road*math.Exp(logs[onRoads][k]+own[k]))
		}
		if s, ok := r.Starts[PointKey(p.Place, p.Zone)]; ok {
			for k, e := range logs[s.Index] {
				levels[k] += e
			}
		}
		for _, v := range p.Visits {
			if _, ok := visits[v.Number]; !ok {
				visits[v.Number] = drawn{w.scatters(stream, scales), d.normals(stream)}
			}
			of, circuit := visits[v.Number], row(r.Circuits, v.Circuit)
			for k, scatter := range of.scatter {
				levels[k] -= float64(v.Taken * scatter * math.Exp(logs[onCircuits][k]+own[k]+circuit[k]+float64(v.Slope*of.pace[k])))
			}
		}
		out[i] = levels
	}
	return out
}
