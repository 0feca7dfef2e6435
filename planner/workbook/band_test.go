package workbook

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// How near the sheet's bands come to the draws: in shares of a new part's life,
// and in chance. The sheets say so.
const (
	bandNear   = 0.05
	chanceNear = 0.03
)

// laidOut is a book with every sheet laid out.
func laidOut(p *planner.Plan) *book {
	b := newBook(p, quantity.Metric)
	b.sheets()
	return b
}

// TestBandsNearTheDraws holds the live bands and chances against the program's
// draws, an independent way to the same figures.
func TestBandsNearTheDraws(t *testing.T) {
	for _, p := range []*planner.Plan{drawn(t, "juniper", "spring", 20_000), drawn(t, "fjord", "midsummer", 20_000)} {
		b := laidOut(p)
		for _, w := range b.wear {
			if !w.banded() {
				continue
			}
			scale := w.u.factor() * (w.p.New - w.p.Limit)
			for k, j := range b.driven {
				st, by := w.steps[k+1], w.p.After[j]
				for what, pair := range map[string][2]float64{
					"5 %": {st.lo.v, by.P5}, "95 %": {st.hi.v, by.P95},
				} {
					if d := math.Abs(pair[0]-pair[1]*w.u.factor()) / scale; !(d <= bandNear) {
						t.Errorf("%s %s after leg %d: %s is off by %.3f of a life", w.set.ID, w.spot(), j+1, what, d)
					}
				}
				for what, pair := range map[string][2]float64{
					"limit": {st.pLimit.v, by.PLimit}, "margin": {st.pPast.v, by.PMargin},
				} {
					if d := math.Abs(pair[0] - pair[1]); !(d <= chanceNear) {
						t.Errorf("%s %s after leg %d: chance of the %s %.3f, draws %.3f", w.set.ID, w.spot(), j+1, what, pair[0], pair[1])
					}
				}
			}
		}
	}
}

// TestMatchIsExactForOneKind holds the closed form against the lognormal
// itself, where nothing else wears and nothing is misread.
func TestMatchIsExactForOneKind(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		worn := rapid.Float64Range(0.1, 100).Draw(t, "worn")
		spread := rapid.Float64Range(0.05, 0.9).Draw(t, "spread")
		m := sums{road: worn}
		m.match(math.Exp(spread*spread), 0)
		for _, z := range []float64{-tail, 0, tail} {
			got, want := m.shift+m.scale*math.Exp(z*m.sigma), worn*math.Exp(z*spread)
			if math.Abs(got-want) > 1e-6*want {
				t.Errorf("at %v: %v, lognormal %v", z, got, want)
			}
		}
	})
}

// TestMatchNearlyNormal holds it against the normal distribution, where the
// gauge is all there is.
func TestMatchNearlyNormal(t *testing.T) {
	var m sums
	m.match(1, 0.2)
	for _, z := range []float64{-tail, 0, tail} {
		if got := m.shift + m.scale*math.Exp(z*m.sigma); math.Abs(got-0.2*z) > 0.02*0.2 {
			t.Errorf("at %v: %v", z, got)
		}
	}
}

// TestBandsKeepTheirOrder draws sums and looks at their order.
func TestBandsKeepTheirOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := sums{
			road:    rapid.Float64Range(0, 10).Draw(t, "road"),
			circuit: rapid.Float64Range(0, 10).Draw(t, "circuit"),
		}
		m.lifted = m.circuit
		m.weighted = m.circuit * rapid.Float64Range(0, 1.2).Draw(t, "circuit spread")
		sr := rapid.Float64Range(0, 1.2).Draw(t, "road spread")
		m.match(math.Exp(sr*sr), rapid.Float64Range(0, 1).Draw(t, "gauge"))
		if m.variance > 0 && !(m.scale > 0 && m.sigma > 0 && finite(m.shift)) {
			t.Errorf("%+v", m)
		}
	})
}

// TestRatesGiveTheLoss multiplies every rate by its usage.
func TestRatesGiveTheLoss(t *testing.T) {
	p := juniper(t)
	b := laidOut(p)
	for _, w := range b.wear {
		for k, j := range b.driven {
			if got, want := w.wear[k].v, w.p.Loss[j]*w.u.factor(); math.Abs(got-want) > 1e-9*want {
				t.Errorf("%s %s leg %d: %v, loss %v", w.set.ID, w.spot(), j+1, got, want)
			}
		}
	}
	if got := b.find(find(t, p, "oil").Points[0]); got == nil || got.set.Kind != profiles.Oil {
		t.Errorf("oil: %+v", got)
	}
}
