package projection

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
)

// TestNormals: sorted, they are gonum's normal quantiles at the middles of n
// equal slices of likelihood; the last half mirrors the first.
func TestNormals(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 3000).Draw(t, "n")
		seed := rapid.Uint64().Draw(t, "seed")
		z := NewDraws(n, seed).normals(Stream(seed, "any"))
		for k := range z {
			if z[k] != -z[n-1-k] {
				t.Fatalf("of %d, %g is mirrored by %g", n, z[k], z[n-1-k])
			}
		}
		slices.Sort(z)
		for k, got := range z {
			if want := distuv.UnitNormal.Quantile((float64(k) + 0.5) / float64(n)); !scalar.EqualWithinAbs(got, want, 1e-9) {
				t.Fatalf("slice %d of %d lies at %.12f, gonum says %.12f", k, n, got, want)
			}
		}
	})
}

// TestLognormals: they are the exponentials of the normals of the same stream.
func TestLognormals(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 3000).Draw(t, "n")
		mean, spread := rapid.Float64Range(-1, 1).Draw(t, "mean"), rapid.Float64Range(0, 0.6).Draw(t, "spread")
		w := NewWorker(NewDraws(n, 1), nil)
		z := w.normals(Stream(1, "any"))
		for k, got := range w.lognormals(Stream(1, "any"), mean, spread) {
			if want := math.Exp(mean + spread*z[k]); !scalar.EqualWithinRel(got, want, 1e-14) {
				t.Fatalf("factor %d of %d is %g, exp(%g + %g x %g) is %g", k, n, got, mean, spread, z[k], want)
			}
		}
	})
}

// TestUniforms: they are the normals of the same stream through gonum's
// normal distribution function.
func TestUniforms(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 3000).Draw(t, "n")
		w := NewWorker(NewDraws(n, 1), nil)
		z := w.normals(Stream(1, "any"))
		for k, got := range w.uniforms(Stream(1, "any")) {
			if want := distuv.UnitNormal.CDF(z[k]); !scalar.EqualWithinAbs(got, want, 1e-12) {
				t.Fatalf("number %d of %d is %g, want %g", k, n, got, want)
			}
		}
	})
}

// TestOrder: every order of the slices, and every choice of signs, is as likely
// as any other (chi-squared at one in a million).
func TestOrder(t *testing.T) {
	const times = 48_000
	d := NewDraws(6, 1)
	r := Stream(1, "order")
	seen := map[[3]float64]float64{}
	for range times {
		z := d.normals(r)
		seen[[3]float64(z)]++
	}
	if len(seen) != 48 {
		t.Fatalf("%d of 3! orders with 2^3 signs came up", len(seen))
	}
	var counts, even []float64
	for _, n := range seen {
		counts, even = append(counts, n), append(even, times/48)
	}
	if x, most := stat.ChiSquare(counts, even), (distuv.ChiSquared{K: 47}).Quantile(1-1e-6); x > most {
		t.Errorf("chi-squared %.1f of 47 degrees of freedom, at most %.1f", x, most)
	}
}

// Columns drawn one after another have nothing to do with each other.
func TestApart(t *testing.T) {
	const n = 40_000
	d := NewDraws(n, 1)
	r := Stream(1, "apart")
	a, b := d.normals(r), d.normals(r)
	if c := stat.Correlation(a, b, nil); math.Abs(c) > 5*math.Sqrt2/math.Sqrt(n) { // half the draws are their own
		t.Errorf("correlation %.4f", c)
	}
}

// TestScatter: over many seeds the median of 1,000 draws scatters less than half
// as much as that of 1,000 draws that are independent, and the ends of the band
// no more; on average both say the same.
func TestScatter(t *testing.T) {
	const n, seeds = 1000, 100
	legs := season(4)
	var drawn, independent [3][]float64
	for seed := range uint64(seeds) {
		s := wearing("any", 1, legs)
		b := NewWorker(NewDraws(n, seed), legs).Project(s, 0).Points[0][3]
		x := independently(s, legs, n, rand.New(rand.NewPCG(seed, 0)))
		slices.Sort(x)
		for i, v := range []float64{b.P5, b.P50, b.P95} {
			drawn[i] = append(drawn[i], v)
			independent[i] = append(independent[i], stat.Quantile(bandShares[i], stat.Empirical, x, nil))
		}
	}
	for i, most := range []float64{1, 0.5, 1} {
		mean, sd := stat.MeanStdDev(drawn[i], nil)
		want, other := stat.MeanStdDev(independent[i], nil)
		if sd > most*other {
			t.Errorf("quantile %g scatters by %.2g, of independent draws by %.2g", bandShares[i], sd, other)
		}
		if math.Abs(mean-want) > 5*math.Hypot(sd, other)/math.Sqrt(seeds) {
			t.Errorf("quantile %g is %.6g on average, of independent draws %.6g", bandShares[i], mean, want)
		}
	}
}

// independently projects the only point of a set as the model is written, draw
// by draw, each number on its own.
func independently(s *Set, legs []trip.Usage, n int, r *rand.Rand) []float64 {
	p := s.Levels[0]
	out := make([]float64, n)
	for k := range out {
		z := r.NormFloat64()
		road, circuit := math.Exp(s.RoadSD*r.NormFloat64()), math.Exp(s.CircuitSD*r.NormFloat64())
		summary := circuit * math.Exp(s.SummarySD*r.NormFloat64())
		out[k] = p.From + p.StartSD*r.NormFloat64()
		for j, l := range p.LegLoss {
			low, high := math.Log(l[0]/l[1]), math.Log(l[2]/l[1])
			switch loss := l[1] * math.Exp(z*((high-low)/2+z*(high+low)/2)); {
			case !legs[j].Circuit:
				out[k] -= l[1] * road
			case legs[j].Summary:
				out[k] -= loss * summary
			case legs[j].Circuit:
				out[k] -= loss * circuit
			}
		}
	}
	return out
}

// The draws follow the posterior: medians, spreads and the correlations of the
// rates, of a point's own multiple and of a reading's error.
func TestDrawnRates(t *testing.T) {
	const n = 40_000
	s := &Set{Levels: []Level{{Point: plan.Point{Place: "RF"}, From: 5, tied: 3}}, Rates: RatePosterior{
		Mean: []float64{0.1, -0.4, 0.3, -0.2}, Points: map[string]int{PointKey("RF", ""): 2},
		Root: [][]float64{{0.2}, {0.3 * -0.7, 0.3 * math.Sqrt(1-0.49)}, {0, 0, 0.1}, {0.12, 0, 0, 0.16}},
	}}
	drawn := NewWorker(NewDraws(n, 1), []trip.Usage{{}, {Circuit: true}}).noiseOf(s)
	road, circuit, own := drawn.rates[driven{road: true}].Values, drawn.rates[driven{}].Values, drawn.own[0].Values
	for i := range road {
		road[i], circuit[i], own[i] = math.Log(road[i]), math.Log(circuit[i]), math.Log(own[i])
	}
	start := drawn.start[0].Values
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"road", stat.Mean(road, nil), 0.1},
		{"road spread", stat.StdDev(road, nil), 0.2},
		{"circuit", stat.Mean(circuit, nil), -0.4},
		{"circuit spread", stat.StdDev(circuit, nil), 0.3},
		{"tie", stat.Correlation(road, circuit, nil), -0.7},
		{"point", stat.Mean(own, nil), 0.3},
		{"its spread", stat.StdDev(own, nil), 0.1},
		{"start", stat.Mean(start, nil), 4.8},
		{"its spread", stat.StdDev(start, nil), 0.2},
		{"its tie to the road", stat.Correlation(road, start, nil), 0.6},
	} {
		if !scalar.EqualWithinAbs(c.got, c.want, 0.01) { // five standard errors of 40,000 draws
			t.Errorf("%s: %.4f, want %.2f", c.name, c.got, c.want)
		}
	}
}

// Visits scatter as Student's t with four degrees of freedom does. Independent
// reference: gonum's.
func TestScatterOfVisits(t *testing.T) {
	const n, scale = 4000, 0.15
	w := NewWorker(NewDraws(n, 1), nil)
	got := w.scatters(Stream(1, "x"), w.scales(Stream(1, "y"), Scatter{Scale: scale}))
	slices.Sort(got)
	want := distuv.StudentsT{Sigma: scale, Nu: 4}
	for k, v := range got {
		if w := want.Quantile((float64(k) + 0.5) / n); math.Abs(math.Log(v)-w) > 1e-6 {
			t.Fatalf("draw %d: %.6f, want %.6f", k, math.Log(v), w)
		}
	}
}
