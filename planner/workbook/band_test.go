package workbook

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/workbook/expr"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// How near the sheet's bands come to the draws: in shares of a new part's life,
// and in chance. The sheets say so.
const (
	bandNear   = 0.06
	chanceNear = 0.03
)

// laidOut is a book with every sheet laid out.
func laidOut(p *plan.Plan) *book {
	return layOut(p, quantity.Metric)
}

// sheet is one of its sheets by name.
func (b *book) sheet(name string) *sheet {
	return b.sheets[slices.IndexFunc(b.sheets, func(s *sheet) bool { return s.name == name })]
}

// TestBandsNearTheDraws holds the live bands and chances against the program's
// draws, an independent way to the same figures.
func TestBandsNearTheDraws(t *testing.T) {
	for _, p := range []*plan.Plan{drawn(t, "juniper", "spring", 20_000), drawn(t, "fjord", "midsummer", 20_000)} {
		b := laidOut(standing(p))
		for _, w := range b.wear {
			if !w.banded() {
				continue
			}
			scale := w.u.factor() * (w.p.New - w.p.Limit)
			for k, j := range b.driven {
				st, by := w.steps[k+1], w.p.After[j]
				for what, pair := range map[string][2]float64{
					"5 %": {st.lo.Num(), by.P5}, "95 %": {st.hi.Num(), by.P95},
				} {
					if d := math.Abs(pair[0]-pair[1]*w.u.factor()) / scale; !(d <= bandNear) {
						t.Errorf("%s %s after leg %d: %s is off by %.3f of a life", w.set.ID, w.spot(), j+1, what, d)
					}
				}
				for what, pair := range map[string][2]float64{
					"limit": {st.pLimit.Num(), by.PLimit}, "margin": {st.pPast.Num(), by.PMargin},
				} {
					if d := math.Abs(pair[0] - pair[1]); !(d <= chanceNear) {
						t.Errorf("%s %s after leg %d: chance of the %s %.3f, draws %.3f", w.set.ID, w.spot(), j+1, what, pair[0], pair[1])
					}
				}
			}
		}
	}
}

// matchOf is the match for so much wear on the road and on circuits, without a
// sheet.
func matchOf(road, circuit, weighted, wr, gauge float64) matched {
	at := func(v float64) expr.Ref { return expr.At("", 1, 1, v) }
	put := func(_ int, x expr.X) expr.Ref { return at(x.Value().Num) }
	return match(put, trail{road: at(road), lifted: at(circuit), weighted: at(weighted), wr: at(wr), gauge: at(gauge)})
}

// at is the figure at a standard normal one.
func (m matched) at(z float64) float64 {
	return m.shift.Num() + m.scale.Num()*math.Exp(z*m.sigma.Num())
}

// TestMatchIsExactForOneKind holds the closed form against the lognormal
// itself, where nothing else wears and nothing is misread.
func TestMatchIsExactForOneKind(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		worn := rapid.Float64Range(0.1, 100).Draw(t, "worn")
		spread := rapid.Float64Range(0.05, 0.9).Draw(t, "spread")
		m := matchOf(worn, 0, 0, math.Exp(spread*spread), 0)
		for _, z := range []float64{-tail, 0, tail} {
			got, want := m.at(z), worn*math.Exp(z*spread)
			if math.Abs(got-want) > 1e-6*want {
				t.Errorf("at %v: %v, lognormal %v", z, got, want)
			}
		}
	})
}

// TestMatchNearlyNormal holds it against the normal distribution, where the
// gauge is all there is.
func TestMatchNearlyNormal(t *testing.T) {
	m := matchOf(0, 0, 0, 1, 0.2)
	for _, z := range []float64{-tail, 0, tail} {
		if got := m.at(z); math.Abs(got-0.2*z) > 0.02*0.2 {
			t.Errorf("at %v: %v", z, got)
		}
	}
}

// TestMatchOfWhatIsSure: wear without spread, read without error, has no band.
func TestMatchOfWhatIsSure(t *testing.T) {
	for _, worn := range [][2]float64{{}, {3, 0}, {3, 2}} {
		want := worn[0] + worn[1]
		if m := matchOf(worn[0], worn[1], 0, 1, 0); m.scale.Num() != 0 || m.shift.Num() != want || m.skew.Num() != leastSkew || !finite(m.sigma.Num()) {
			t.Errorf("%v: %+v", want, m)
		}
	}
}

// TestPace by hand: a leg that wears exp(-0.2) times as much at one spread of
// pace below and exp(0.3) times above has a slope of 0.25 and a bend of 0.05;
// where one of the three is none or not known, the pace does not count.
func TestPace(t *testing.T) {
	slow, fast := 2*math.Exp(-0.2), 2*math.Exp(0.3)
	for _, c := range []struct {
		loss        float64
		slow, fast  []float64
		slope, bend float64
	}{
		{2, []float64{slow}, []float64{fast}, 0.25, 0.05},
		{2, []float64{0}, []float64{fast}, 0, 0},
		{2, []float64{slow}, []float64{0}, 0, 0},
		{0, []float64{slow}, []float64{fast}, 0, 0},
		{2, nil, []float64{fast}, 0, 0},
		{2, []float64{slow}, nil, 0, 0},
	} {
		w := &point{p: &plan.Point{Loss: []float64{c.loss}, Slow: c.slow, Fast: c.fast}}
		slope, bend := w.pace(0)
		if math.Abs(slope-c.slope) > 1e-12 || math.Abs(bend-c.bend) > 1e-12 || math.Abs(w.lift(0)-math.Exp(c.bend)) > 1e-12 {
			t.Errorf("%+v: slope %v, bend %v, lift %v", c, slope, bend, w.lift(0))
		}
	}
}

// TestSpread by hand: the rate's own 0.3, the pace's 0.25 and twice 0.05 for its
// bend, a summary's 0.1, in quadrature; a road has its own and no pace.
func TestSpread(t *testing.T) {
	loss := []float64{2, 2}
	w := &point{
		set: &plan.Set{RoadSpread: 0.2, CircuitSpread: 0.3, SummarySpread: 0.1},
		p:   &plan.Point{Loss: loss, Slow: []float64{2 * math.Exp(-0.2), 1}, Fast: []float64{2 * math.Exp(0.3), 9}},
	}
	legs := []plan.Leg{{Kind: profiles.CircuitLeg}, {Kind: profiles.RoadLeg}}
	for name, c := range map[string]struct {
		leg       int
		bySummary bool
		want      float64
	}{
		"circuit": {0, false, math.Sqrt(0.09 + 0.0625 + 0.005)},
		"summary": {0, true, math.Sqrt(0.09 + 0.0625 + 0.005 + 0.01)},
		"road":    {1, true, 0.2},
	} {
		legs[0].BySummary, legs[1].BySummary = c.bySummary, c.bySummary
		if got := w.spreadOn(legs[c.leg], c.leg); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

// TestJustAtTheLine: a point that ends the trip just at its margin is below
// it, one just at its limit is past it; and where months allow just the limit,
// it is crossed for sure.
func TestJustAtTheLine(t *testing.T) {
	for name, c := range map[string]struct {
		start  func(plan.Point) float64
		capped bool
		want   string
	}{
		"new":       {func(p plan.Point) float64 { return p.New }, false, good},
		"at margin": {func(p plan.Point) float64 { return p.Margin }, false, belowMargin},
		"at limit":  {func(p plan.Point) float64 { return p.Limit }, false, pastLimit},
		"too old":   {func(p plan.Point) float64 { return p.New }, true, pastLimit},
	} {
		p := juniper(t)
		pt := &p.Sets[slices.IndexFunc(p.Sets, func(s plan.Set) bool { return s.ID == "tires-front" })].Points[0]
		none := make([]float64, len(p.Legs))
		pt.Start, pt.Loss, pt.Slow, pt.Fast, pt.Prior, pt.Cap = c.start(*pt), none, none, none, [2]float64{}, nil
		if c.capped {
			pt.Cap = slices.Repeat([]float64{pt.Limit}, len(p.Legs))
		}
		b := layOut(p, quantity.Metric)
		w := b.wear.find(*pt)
		if end := w.last(); c.capped && (end.pLimit.Num() != 1 || end.pPast.Num() != 1) {
			t.Errorf("%s: %+v", name, end)
		}
		row := b.sheet(wearName).rows[w.row-1].cells
		if got := row[wearStatus-1].value; got != c.want {
			t.Errorf("%s: the Wear sheet says %q, want %q", name, got, c.want)
		}
		if got := most(b.view, w.point, w.rates).value; got != "none" {
			t.Errorf("%s: %q takes most from what does not wear", name, got)
		}
	}
}

// TestNoLifeToLose: an owner's limit may be as deep as the part is new; then
// there is no life to share out.
func TestNoLifeToLose(t *testing.T) {
	p := juniper(t)
	pt := &p.Sets[slices.IndexFunc(p.Sets, func(s plan.Set) bool { return s.ID == "tires-front" })].Points[0]
	pt.New, pt.Start = pt.Limit, pt.Limit
	b := laidOut(p)
	for k, st := range b.wear.find(*pt).steps {
		if st.share.Num() != 0 {
			t.Errorf("step %d: share %v", k, st.share.Num())
		}
	}
}

// TestBandsKeepTheirOrder draws sums and looks at their order.
func TestBandsKeepTheirOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		road, circuit := rapid.Float64Range(0, 10).Draw(t, "road"), rapid.Float64Range(0, 10).Draw(t, "circuit")
		weighted := circuit * rapid.Float64Range(0, 1.2).Draw(t, "circuit spread")
		sr := rapid.Float64Range(0, 1.2).Draw(t, "road spread")
		m := matchOf(road, circuit, weighted, math.Exp(sr*sr), rapid.Float64Range(0, 1).Draw(t, "gauge"))
		if m.variance.Num() > 0 && !(m.scale.Num() > 0 && m.sigma.Num() > 0 && finite(m.shift.Num())) {
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
			if got, want := w.wear[k].Num(), w.p.Loss[j]*w.u.factor(); math.Abs(got-want) > 1e-9*want {
				t.Errorf("%s %s leg %d: %v, loss %v", w.set.ID, w.spot(), j+1, got, want)
			}
		}
	}
	if got := b.wear.find(find(t, p, "oil").Points[0]); got == nil || got.set.Kind != profiles.Oil {
		t.Errorf("oil: %+v", got)
	}
}
