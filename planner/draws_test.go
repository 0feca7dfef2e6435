package planner

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

// TestNormals: sorted, they are gonum's normal quantiles at the middles of n
// equal slices of likelihood; the last half mirrors the first.
func TestNormals(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 3000).Draw(t, "n")
		seed := rapid.Uint64().Draw(t, "seed")
		z := newDraws(n, seed).normals(stream(seed, "any"))
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

// TestFactors: they are the exponentials of the normals of the same stream.
func TestFactors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 3000).Draw(t, "n")
		mean, spread := rapid.Float64Range(-1, 1).Draw(t, "mean"), rapid.Float64Range(0, 0.6).Draw(t, "spread")
		w := newWorker(newDraws(n, 1), nil)
		z := w.normals(stream(1, "any"))
		for k, got := range w.factors(stream(1, "any"), mean, spread) {
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
		w := newWorker(newDraws(n, 1), nil)
		z := w.normals(stream(1, "any"))
		for k, got := range w.uniforms(stream(1, "any")) {
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
	d := newDraws(6, 1)
	r := stream(1, "order")
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
	d := newDraws(n, 1)
	r := stream(1, "apart")
	a, b := d.normals(r), d.normals(r)
	if c := stat.Correlation(a, b, nil); math.Abs(c) > 5*math.Sqrt2/math.Sqrt(n) { // half the draws are their own
		t.Errorf("correlation %.4f", c)
	}
}
