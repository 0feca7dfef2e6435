package reliability

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// Draws fall beyond a distance as often as Survive says.
func TestDrawAgreesWithSurvive(t *testing.T) {
	s := NewScale(HubPrior()).Failed(0.5).Good(0.3)
	rng := rand.New(rand.NewPCG(1, 2))
	const n = 40000
	for _, age := range []float64{0, 0.2, 1.5} {
		at := s.At(age)
		for _, extra := range []float64{0.1, 0.5, 2} {
			lasted := 0
			for range n {
				if at.Draw(rng.Float64(), rng.Float64()) > extra {
					lasted++
				}
			}
			want := at.Survive(extra)
			sd := math.Sqrt(want * (1 - want) / n)
			if got := float64(lasted) / n; math.Abs(got-want) > 4*sd {
				t.Errorf("age %v: %.4f of the draws last %v, Survive says %.4f", age, got, extra, want)
			}
		}
	}
}

// Surviving in two stages is surviving in one: P(a+b) = P(a) P(b given a).
func TestSurviveChains(t *testing.T) {
	s := NewScale(HubPrior())
	rapid.Check(t, func(t *rapid.T) {
		age := rapid.Float64Range(0, 2).Draw(t, "age")
		a := rapid.Float64Range(0, 2).Draw(t, "a")
		b := rapid.Float64Range(0, 2).Draw(t, "b")
		near(t, "two stages", s.Survive(age, a)*s.Survive(age+a, b), s.Survive(age, a+b), 1e-9)
	})
}

// Draws grow with both numbers where the shape is known, otherwise with the second:
// of two corners the one that lasts longer by its scale may have more early ends.
func TestSamplerIsMonotone(t *testing.T) {
	share := rapid.Float64Range(0, 0.9999)
	for _, p := range []Prior{HubPrior(), ofKnownShape()} {
		at := NewScale(p).Failed(0.4).At(0.3)
		if at.Survive(0) != 1 {
			t.Errorf("no way to go survives at %v", at.Survive(0))
		}
		rapid.Check(t, func(t *rapid.T) {
			u, v, step := share.Draw(t, "u"), share.Draw(t, "v"), rapid.Float64Range(0, 1).Draw(t, "step")
			further := u + (0.9999-u)*step
			if p.Wide == nil && at.Draw(further, v) < at.Draw(u, v) || at.Draw(v, further) < at.Draw(v, u) {
				t.Error("a draw fell with its uniform")
			}
			if at.Survive(u+step) > at.Survive(u) {
				t.Error("survival rose with distance")
			}
		})
	}
}

func BenchmarkDraw(b *testing.B) {
	at := NewScale(HubPrior()).Failed(0.5).At(0.2)
	rng := rand.New(rand.NewPCG(1, 2))
	for b.Loop() {
		at.Draw(rng.Float64(), rng.Float64())
	}
}
