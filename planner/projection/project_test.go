package projection

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"

	"example.com/tripwear/planner/plan"
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
func wearing(id string, points int, legs []trip.Usage) *Set {
	s := &Set{Set: plan.Set{ID: id, Critical: true}, RoadSD: 0.25, CircuitSD: 0.4, SummarySD: 0.3}
	for i := range points {
		p := Level{Point: plan.Point{New: 8e-3, Start: 6e-3, Limit: 1.6e-3, Margin: 2.4e-3}, From: 6e-3, StartSD: 2e-4}
		for j := range legs {
			loss := trip.Loss{2e-4, 2e-4, 2e-4}
			if legs[j].Circuit {
				loss[0], loss[1], loss[2] = 4e-4*math.Exp(-0.2), 4e-4*(1+float64(i)/20), 4e-4*math.Exp(0.25)
			}
			p.LegLoss, p.Loss = append(p.LegLoss, loss), append(p.Loss, loss[1])
		}
		s.Levels = append(s.Levels, p)
	}
	return s.AddReplacement()
}

// TestPaceEffect checks the effect of pace against the quadratic through the
// three computed losses, written out independently as Lagrange's polynomial.
func TestPaceEffect(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := trip.Loss{
			rapid.Float64Range(1e-6, 1).Draw(t, "slower"),
			rapid.Float64Range(1e-6, 1).Draw(t, "planned"),
			rapid.Float64Range(1e-6, 1).Draw(t, "faster"),
		}
		var table byClass
		addTo(l, &table)
		for c, z := range paceErrors {
			want := math.Log(l[0])*z*(z-1)/2 + math.Log(l[1])*(1-z*z) + math.Log(l[2])*z*(z+1)/2
			if math.Abs(math.Log(table[c])-want) > 1e-9 {
				t.Fatalf("pace error %g: got %g, want %g", z, table[c], math.Exp(want))
			}
		}
	})
}

// TestPaceErrors: the classes are the middle quantiles of the normal law.
// Independent reference: gonum's.
func TestPaceErrors(t *testing.T) {
	for c, z := range paceErrors {
		if want := distuv.UnitNormal.Quantile((float64(c) + 0.5) / classes); math.Abs(z-want) > 1e-9 {
			t.Errorf("class %d: got %g, want %g", c, z, want)
		}
	}
}

// TestProjectionProperties is what must hold of any set on any trip.
func TestProjectionProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		legs := season(rapid.IntRange(1, 6).Draw(t, "legs"))
		s := wearing("any", rapid.IntRange(1, 6).Draw(t, "points"), legs)
		w := NewWorker(NewDraws(500, rapid.Uint64().Draw(t, "seed")), legs)
		from := rapid.IntRange(0, len(legs)-1).Draw(t, "from")
		got := w.Project(s, from)
		again := NewWorker(w.Draws, legs).Project(s, from)
		if !reflect.DeepEqual(got, again) {
			t.Fatal("the same draws gave another projection")
		}
		for i, bands := range append(got.Points, got.Set) {
			for j, b := range bands {
				if !(b.P5 <= b.P50 && b.P50 <= b.P95) {
					t.Fatalf("row %d leg %d: band out of order: %+v", i, j, b)
				}
				if b.PLimit < 0 || b.PLimit > b.PMargin || b.PMargin > 1 {
					t.Fatalf("row %d leg %d: chances out of order: %+v", i, j, b)
				}
				if j > 0 && (b.P50 > bands[j-1].P50 || b.PLimit < bands[j-1].PLimit) {
					t.Fatalf("row %d leg %d: grew back: %+v after %+v", i, j, b, bands[j-1])
				}
			}
		}
	})
}

// TestColumnBounds: no level lies beyond the bounds that its column names,
// which are not much wider than they must be.
func TestColumnBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		legs := season(rapid.IntRange(1, 6).Draw(t, "legs"))
		s := wearing("any", 2, legs)
		s.Levels[1].StartSD, s.Levels[1].wornRoad, s.Levels[1].wornCircuit = 0, 1e-3, 2e-3
		if rapid.Bool().Draw(t, "time counts") {
			for range legs {
				s.Levels[0].Ceiling = append(s.Levels[0].Ceiling, rapid.Float64Range(4e-3, 7e-3).Draw(t, "cap"))
			}
			s.PerLeg = rapid.Bool().Draw(t, "alone")
			s.Levels[1].Ceiling = s.Levels[0].Ceiling
		}
		run := NewWorker(NewDraws(500, rapid.Uint64().Draw(t, "seed")), legs).Start(s)
		for j := range legs {
			run.Advance(j, 0)
			for i, level := range run.Level {
				lo, hi := bounds(level.Values)
				if lo < level.lo-1e-15 || hi > level.hi+1e-15 || level.hi-level.lo > 5*(hi-lo)+1e-15 {
					t.Fatalf("point %d leg %d: levels from %g to %g in bounds from %g to %g", i, j, lo, hi, level.lo, level.hi)
				}
			}
		}
	})
}

// TestSplittingALeg: two half legs take what the whole leg takes.
func TestSplittingALeg(t *testing.T) {
	whole := []trip.Usage{{Circuit: true}}
	halves := []trip.Usage{{Circuit: true}, {Circuit: true}}
	one, two := wearing("split", 1, whole), wearing("split", 1, halves)
	one.Levels[0].LegLoss = []trip.Loss{{1e-3, 2e-3, 3e-3}}
	two.Levels[0].LegLoss = []trip.Loss{{5e-4, 1e-3, 1.5e-3}, {5e-4, 1e-3, 1.5e-3}}
	d := NewDraws(2000, 3)
	a := NewWorker(d, whole).Project(one, 0).Points[0][0]
	b := NewWorker(d, halves).Project(two, 0).Points[0][1]
	if math.Abs(a.P50-b.P50) > 1e-12 || math.Abs(a.P5-b.P5) > 1e-12 || a.PLimit != b.PLimit {
		t.Errorf("one leg %+v, two halves %+v", a, b)
	}
}

// benchSets are 34 points in 12 sets.
func benchSets(legs []trip.Usage) []*Set {
	var sets []*Set
	for i, points := range []int{6, 6, 2, 2, 4, 4, 2, 2, 2, 2, 1, 1} {
		sets = append(sets, wearing(fmt.Sprint("set ", i), points, legs))
	}
	return sets
}

// BenchmarkMillion projects the sets of BenchmarkProject with 1,000,000 draws
// over the cores that -cpu gives.
func BenchmarkMillion(b *testing.B) {
	legs := season(12)
	for b.Loop() {
		sets := benchSets(legs)
		d := NewDraws(1_000_000, 1)
		Parallel(len(sets), func() func(int) {
			w := NewWorker(d, legs)
			return func(i int) { w.Project(sets[i], 0) }
		})
	}
}

// TestLognormal checks the draws against the closed form: with no pace effect
// and no gauge error, the loss on one circuit leg is lognormal.
// Independent reference: gonum's lognormal distribution.
func TestLognormal(t *testing.T) {
	legs := []trip.Usage{{Circuit: true}}
	s := wearing("closed form", 1, legs)
	s.Levels[0].LegLoss[0] = trip.Loss{2e-3, 2e-3, 2e-3}
	s.Levels[0].StartSD = 0
	got := NewWorker(NewDraws(10_000, 7), legs).Project(s, 0).Points[0][0]
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

// BenchmarkProject is 12 legs, 34 points in 12 sets, 10,000 draws, with bands,
// on one core.
func BenchmarkProject(b *testing.B) {
	legs := season(12)
	sets := benchSets(legs)
	for b.Loop() {
		w := NewWorker(NewDraws(10_000, 1), legs)
		for _, s := range sets {
			s.Redraw(w) // as in a plan
			w.Project(s, 0)
		}
	}
}
