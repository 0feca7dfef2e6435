package planner

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
)

// season is a made-up trip of n legs, roads and circuits in turn, for the
// projection alone.
func season(n int) []trip.Usage {
	out := make([]trip.Usage, n)
	for j := range out {
		out[j] = trip.Usage{Circuit: j%2 == 1, Summary: j%4 == 3}
	}
	return out
}

// wearing is a set of points that lose a little on every leg of a season.
func wearing(id string, points int, legs []trip.Usage) *projection.Set {
	s := &projection.Set{Set: plan.Set{ID: id, Critical: true}, RoadSD: 0.25, CircuitSD: 0.4, SummarySD: 0.3}
	for i := range points {
		p := projection.Level{Point: plan.Point{New: 8e-3, Start: 6e-3, Limit: 1.6e-3, Margin: 2.4e-3}, From: 6e-3, StartSD: 2e-4}
		for j := range legs {
			loss := trip.Loss{2e-4, 2e-4, 2e-4}
			if legs[j].Circuit {
				loss[0], loss[1], loss[2] = 4e-4*math.Exp(-0.2), 4e-4*(1+float64(i)/20), 4e-4*math.Exp(0.25)
			}
			p.LegLoss = append(p.LegLoss, loss)
		}
		s.Levels = append(s.Levels, p)
	}
	return s.AddReplacement()
}

// TestLognormal checks the draws against the closed form: with no pace effect
// and no gauge error, the loss on one circuit leg is lognormal.
// Independent reference: gonum's lognormal distribution.
func TestLognormal(t *testing.T) {
	legs := []trip.Usage{{Circuit: true}}
	s := wearing("closed form", 1, legs)
	s.Levels[0].LegLoss[0] = trip.Loss{2e-3, 2e-3, 2e-3}
	s.Levels[0].StartSD = 0
	got := projection.NewWorker(projection.NewDraws(DefaultDraws, 7), legs).Project(s, 0).Points[0][0]
	law := distuv.LogNormal{Mu: math.Log(2e-3), Sigma: 0.4}
	for _, c := range []struct {
		what      string
		got, want float64
		tol       float64
	}{
		{"median", got.P50, 6e-3 - law.Quantile(0.5), 5e-7},
		{"5 %", got.P5, 6e-3 - law.Quantile(0.95), 2e-6},
		{"95 %", got.P95, 6e-3 - law.Quantile(0.05), 1e-6},
		{"limit", got.PLimit, law.Survival(4.4e-3), 1e-4}, // a draw of 10,000
		{"margin", got.PMargin, law.Survival(3.6e-3), 1e-4},
	} {
		if math.Abs(c.got-c.want) > c.tol {
			t.Errorf("%s: got %g, want %g within %g", c.what, c.got, c.want, c.tol)
		}
	}
}

// benchSets are 34 points in 12 sets.
func benchSets(legs []trip.Usage) []*projection.Set {
	var sets []*projection.Set
	for i, points := range []int{6, 6, 2, 2, 4, 4, 2, 2, 2, 2, 1, 1} {
		sets = append(sets, wearing(fmt.Sprint("set ", i), points, legs))
	}
	return sets
}

// BenchmarkProject is 12 legs, 34 points in 12 sets, 10,000 draws, with bands,
// on one core.
func BenchmarkProject(b *testing.B) {
	legs := season(12)
	sets := benchSets(legs)
	for b.Loop() {
		w := projection.NewWorker(projection.NewDraws(DefaultDraws, 1), legs)
		for _, s := range sets {
			s.Redraw(w) // as in a plan
			w.Project(s, 0)
		}
	}
}
