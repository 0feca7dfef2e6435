package workbook

import (
	"example.com/tripwear/planner/workbook/expr"
	"example.com/tripwear/profiles"

	"example.com/tripwear/planner/workbook/form"
)

// Columns of the Workings sheet, and its first row of figures.
const (
	workSet = 1 + iota
	workPoint
	workLeg
	workWear
	workSpread
	workRoad     // worn on the road so far, unmeasured wear before the trip included
	workCircuit  // the same on circuits
	workLift     // by how much a pace off the plan raises a leg's wear in the middle
	workLifted   // worn on circuits so far, lifted
	workWeighted // that times its spread
	workWc       // exp of the circuits' variance
	workMean     // of all wear
	workVar
	workThird // central moment
	workSkew
	workCube
	workOmega
	workSigma
	workScale
	workShift
	workLeft
	workLo
	workHi
	workLimit
	workPast
	workShare
	workCap
	workWr // exp of the road rate's variance
	workGauge
	workBase    // level that all wear comes off
	workColumns = workBase

	workFirst = 5
)

// tail is the standard normal figure with 5 % below it.
const tail = 1.6448536269514722

// leastSkew keeps the offset lognormal's arithmetic valid where the sum is
// nearly normal; it moves no band by what shows.
const leastSkew = 0.05

// leastVar is a variance that counts as none: a millionth of what any unit
// here shows, squared.
const leastVar = 1e-18

const workingsName = "Workings"

var workHeads = []string{
	"Set", "Point", "Leg", "wear", "spread", "road", "circuit", "lift", "lifted", "x spread", "exp var", "mean", "variance", "third", "skew", "cube", "omega", "sigma", "scale", "offset",
	"left", "5 %", "95 %", "limit", "margin", "life", "months", "exp var", "gauge", "base",
}

// workSheet is the sheet in the making.
type workSheet struct {
	*sheet
	v view
}

// workingsOf is the hidden sheet that follows every point through the trip.
// What wears on the road and what wears on circuits are two lognormal figures
// with the same medians and spreads as in the program's draws; several circuit
// legs go together as one with the spread of their mean. The level is start
// less their sum less the gauge error, taken as a lognormal with an offset that
// has the same mean, variance and third moment: exact for one kind of wear read
// without error.
func workingsOf(v view, points []*point, by []rates) (*sheet, worn) {
	s := workSheet{&sheet{name: workingsName, wide: true, hidden: true}, v}
	for range workColumns {
		s.widths = append(s.widths, 15)
	}
	s.title("Workings", "What the other sheets are worked out from. The level is the start less the wear on the road, the wear on circuits and the gauge error: a lognormal with an offset of the same mean, variance and third moment.")
	warn(s.sheet)
	heads := s.draft(look{})
	for i, h := range workHeads {
		heads.put(i+1, left(h))
	}
	heads.add()
	s.head = len(s.rows)
	var out worn
	for i, p := range points {
		w := &wearing{point: p, rates: by[i]}
		s.trace(w)
		out = append(out, w)
		s.addHigh(lineHeight)
	}
	return s.sheet, out
}

// trail is what a row of a point hands on to the next.
type trail struct {
	road, circuit    expr.Ref // worn so far
	lifted, weighted expr.Ref
	wr, gauge, base  expr.Ref // of the first row, for all
}

// row begins a row of a point.
func (s workSheet) row(w *wearing, leg string) workRow {
	d := s.draft(look{})
	for i := range d.cells {
		d.cells[i] = cell{}
	}
	d.put(workSet, text(look{}, w.set.ID))
	d.put(workPoint, text(look{}, w.spot()))
	d.put(workLeg, text(look{}, leg))
	return workRow{d, w}
}

type workRow struct {
	*draft
	w *wearing
}

// work fills a column with a figure.
func (r workRow) work(col int, x expr.X) expr.Ref { return r.put(col, live(look{}, "0.0000", x)) }

// trace follows a point through the trip.
func (s workSheet) trace(w *wearing) {
	r := s.row(w, "start")
	renewed := w.renewed(s.v)
	before := r.begin(renewed == 0)
	w.steps = []step{{left: r.draft.at(workLeft), share: r.draft.at(workShare)}}
	for k, j := range s.v.driven {
		r := s.row(w, s.v.legName(j))
		var st step
		if k > 0 && k == renewed {
			before = r.renew(before)
		}
		st, before = r.advance(s.v, before, k, renewed >= 0 && k >= renewed)
		w.steps = append(w.steps, st)
	}
}

// begin is a point's first row: its start, and what the rows below share. A set
// that is replaced before leaving begins as new, as decided.
func (r workRow) begin(renewed bool) trail {
	w := r.w
	fresh := func(then, otherwise expr.X) expr.X {
		if renewed {
			return ifDecided(then, otherwise)
		}
		return otherwise
	}
	planned := w.planned(planStart, w.start)
	asRead := func(yes, no expr.X) expr.X {
		return fresh(expr.Num(0), expr.F("IF(a=b,c,d)", w.start, planned, yes, no))
	}
	out := trail{road: r.work(workRoad, asRead(w.priorRoad, expr.Num(0))), circuit: r.work(workCircuit, asRead(w.priorCirc, expr.Num(0)))}
	if w.banded() {
		out.lifted = r.work(workLifted, out.circuit)
		out.weighted = r.work(workWeighted, expr.F("a*b", out.circuit, w.circuit))
		out.wr = r.work(workWr, expr.F("EXP(a*a)", w.road))
		out.gauge = r.work(workGauge, asRead(w.gauge, w.reading))
	}
	start := r.work(workLeft, fresh(w.fresh, w.start))
	out.base = r.work(workBase, expr.F("a+b+c", start, out.road, out.circuit))
	r.share(start)
	r.add(lineHeight)
	return out
}

// renew is what a row goes on from where a new part goes on before it, as
// decided: nothing worn, nothing misread.
func (r workRow) renew(was trail) trail {
	none := func(of expr.X) expr.X { return ifDecided(expr.Num(0), of) }
	now := trail{road: r.hide(live(look{}, "0.0000", none(was.road))), circuit: r.hide(live(look{}, "0.0000", none(was.circuit))), wr: was.wr}
	if r.w.banded() {
		now.lifted, now.weighted = r.hide(live(look{}, "0.0000", none(was.lifted))), r.hide(live(look{}, "0.0000", none(was.weighted)))
		now.gauge = r.work(workGauge, none(was.gauge))
	}
	now.base = r.work(workBase, ifDecided(r.w.fresh, was.base))
	return now
}

// share is the share of a new part's life in a level.
func (r workRow) share(level expr.Ref) expr.Ref {
	return r.work(workShare, expr.F("IF((a-b)>0,(c-b)/(a-b),0)", r.w.fresh, r.w.limit, level))
}

// advance is the row of a point after the kth driven leg.
func (r workRow) advance(v view, before trail, k int, renewed bool) (step, trail) {
	w, j, now := r.w, v.driven[k], before
	wear, spread := r.work(workWear, w.wear[k]), r.work(workSpread, w.rates.spread[k])
	lift := r.work(workLift, expr.Num(w.lift(j)))
	road := v.Legs[j].Kind == profiles.RoadLeg
	var roadWorn, circuitWorn expr.X = before.road, before.circuit
	if more := expr.F("a+b", choose(road, before.road, before.circuit), wear); road {
		roadWorn = more
	} else {
		circuitWorn = more
	}
	now.road, now.circuit = r.work(workRoad, roadWorn), r.work(workCircuit, circuitWorn)
	held := func(x expr.X) expr.X { return x } // to what the months allow
	crossed := func(_ expr.Ref, x expr.X) expr.X { return x }
	if c := w.ceiling(j); c < form.NoMore {
		cap := expr.X(expr.Num(c))
		if renewed {
			cap = ifDecided(expr.Num(form.NoMore), cap)
		}
		most := r.work(workCap, cap)
		held = func(x expr.X) expr.X { return expr.F("MIN(a,b)", most, x) }
		crossed = func(line expr.Ref, x expr.X) expr.X { return expr.F("IF(a<=b,1,c)", most, line, x) }
	}
	st := step{left: r.work(workLeft, held(expr.F("a-b-c", now.base, now.road, now.circuit)))}
	st.share = r.share(st.left)
	if w.banded() {
		var lifted, weighted expr.X = before.lifted, before.weighted
		if !road {
			lifted, weighted = expr.F("a+b*c", lifted, wear, lift), expr.F("a+b*c*d", weighted, wear, lift, spread)
		}
		now.lifted, now.weighted = r.work(workLifted, lifted), r.work(workWeighted, weighted)
		m := match(r.work, now)
		reach := func(z float64) expr.X {
			return held(expr.F("a-b-c*EXP(d*e)", now.base, m.shift, m.scale, expr.Num(z), m.sigma))
		}
		st.lo, st.hi = r.work(workLo, reach(tail)), r.work(workHi, reach(-tail))
		chance := func(line expr.Ref) expr.X {
			gap := expr.F("(a-b-c)", now.base, line, m.shift)
			return crossed(line, expr.F("IF(b<=0,IF(c<=a,1,0),IF(d<=0,1,NORMSDIST(-LN(MAX(d,1E-300)/b)/e)))", line, m.scale, st.left, gap, m.sigma))
		}
		st.pLimit, st.pPast = r.work(workLimit, chance(w.limit)), r.work(workPast, chance(w.margin))
	}
	r.add(lineHeight)
	return st, now
}

// matched is a lognormal with an offset.
type matched struct{ variance, skew, sigma, scale, shift expr.Ref }

// match finds the one that has the moments of the sum of two lognormal figures
// and a gauge error, and writes the way to it with put.
func match(put func(col int, x expr.X) expr.Ref, t trail) (m matched) {
	wc := put(workWc, expr.F("IF(a>0,EXP((b/a)^2),1)", t.lifted, t.weighted))
	r, c := expr.F("(a*SQRT(b))", t.road, t.wr), expr.F("(a*SQRT(b))", t.lifted, wc)
	mean := put(workMean, expr.F("a+b", r, c))
	squares := expr.F("a^2*(b-1)+c^2*(d-1)+e^2", r, t.wr, c, wc, t.gauge)
	m.variance = put(workVar, expr.F("IF(a<b,0,a)", squares, expr.Num(leastVar)))
	third := put(workThird, expr.F("a^3*(b-1)^2*(b+2)+c^3*(d-1)^2*(d+2)", r, t.wr, c, wc))
	m.skew = put(workSkew, expr.F("IF(a>0,MAX(c,b/a^1.5),c)", m.variance, third, expr.Num(leastSkew)))
	cube := put(workCube, expr.F("((a^2+2-a*SQRT(a^2+4))/2)^(1/3)", m.skew))
	omega := put(workOmega, expr.F("a+1/a-1", cube))
	m.sigma = put(workSigma, expr.F("SQRT(LN(a))", omega))
	m.scale = put(workScale, expr.F("SQRT(a/(b*(b-1)))", m.variance, omega))
	m.shift = put(workShift, expr.F("a-b*SQRT(c)", mean, m.scale, omega))
	return m
}
