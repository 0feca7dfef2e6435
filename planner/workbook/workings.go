package workbook

import (
	"fmt"
	"math"

	"example.com/tripwear/profiles"
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
	workPassed
	workBeyond
	workCap
	workWr // exp of the road rate's variance
	workGauge
	workBase    // level that all wear comes off
	workColumns = workBase

	workFirst = 5
)

// tail is the standard normal figure with 5 % below it.
const tail = 1.6448536269514722

// leastSkew keeps the offset lognormal's arithmetic sound where the sum is
// nearly normal; it moves no band by what shows.
const leastSkew = 0.05

// leastVar is a variance that counts as none: a millionth of what any unit
// here shows, squared.
const leastVar = 1e-18

// sums are the figures behind a step's band.
type sums struct {
	road, circuit, lifted, weighted, wc    float64
	mean, variance, third                  float64
	skew, cube, omega, sigma, scale, shift float64
}

// workings addresses a column of a point's rows, from a step to another.
func (w *wearing) workings(col, from, to int, s *sheet) string {
	a := ref{workingsName, col, w.from + from, 0}
	return a.upTo(ref{workingsName, col, w.from + to, 0}, s)
}

const workingsName = "Workings"

// trace follows a point through the trip. What wears on the road and what
// wears on circuits are two lognormal figures with the same medians and
// spreads as in the program's draws; several circuit legs go together as one
// with the spread of their mean. The level is start less their sum less the
// gauge error, taken as a lognormal with an offset that has the same mean,
// variance and third moment: exact for one kind of wear read without error.
func (b *book) trace(w *wearing) {
	at := func(col, k int, v float64) ref { return ref{workingsName, col, w.from + k, v} }
	sr, sc := w.road.v, w.circuit.v
	wr := math.Exp(sr * sr)
	first := sums{road: w.priorRoad.v, circuit: w.priorCirc.v, lifted: w.priorCirc.v, weighted: w.priorCirc.v * sc}
	base := w.start.v + first.road + first.circuit
	life := w.fresh.v - w.limit.v
	share := func(left float64) float64 { return choose(life > 0, (left-w.limit.v)/life, 0) }
	w.steps = []step{{left: at(workLeft, 0, w.start.v), share: at(workShare, 0, share(w.start.v)), sums: first}}
	m := first
	for k, j := range b.driven {
		if b.p.Legs[j].Kind == profiles.RoadLeg {
			m.road += w.wear[k].v
		} else {
			m.circuit += w.wear[k].v
			m.lifted += float64(w.wear[k].v * w.lift(j))
			m.weighted += float64(w.wear[k].v * w.lift(j) * w.spread[k].v)
		}
		m.match(wr, w.gauge.v)
		ceiling := b.ceiling(w, j)
		left := math.Min(ceiling, base-m.road-m.circuit)
		reach := func(z float64) float64 {
			return math.Min(ceiling, base-m.shift-choose(m.scale > 0, m.scale*math.Exp(z*m.sigma), 0))
		}
		crossed := func(line float64) float64 {
			x := base - line - m.shift
			switch {
			case ceiling <= line:
				return 1
			case m.scale <= 0:
				return choose(left <= line, 1.0, 0)
			case x <= 0:
				return 1
			}
			return normal(-math.Log(x/m.scale) / m.sigma)
		}
		w.steps = append(w.steps, step{
			left: at(workLeft, k+1, left), lo: at(workLo, k+1, reach(tail)), hi: at(workHi, k+1, reach(-tail)),
			pLimit: at(workLimit, k+1, crossed(w.limit.v)), pPast: at(workPast, k+1, crossed(w.margin.v)),
			share: at(workShare, k+1, share(left)), sums: m, passed: left <= w.margin.v, beyond: left <= w.limit.v,
		})
	}
}

// match finds the lognormal with an offset that has the moments of the sum of
// two lognormal figures and a gauge error.
func (m *sums) match(wr, gauge float64) {
	s := over(m.weighted, m.lifted)
	m.wc = math.Exp(s * s)
	r, c := float64(m.road*math.Sqrt(wr)), float64(m.lifted*math.Sqrt(m.wc))
	m.mean = r + c
	m.variance = float64(r*r*(wr-1)) + float64(c*c*(m.wc-1)) + float64(gauge*gauge)
	if m.variance < leastVar {
		m.variance = 0
	}
	m.third = float64(r*r*r*(wr-1)*(wr-1)*(wr+2)) + float64(c*c*c*(m.wc-1)*(m.wc-1)*(m.wc+2))
	m.skew = leastSkew
	if m.variance > 0 {
		m.skew = math.Max(leastSkew, m.third/math.Pow(m.variance, 1.5))
	}
	g := m.skew
	m.cube = math.Pow((float64(g*g)+2-float64(g*math.Sqrt(float64(g*g)+4)))/2, 1.0/3)
	m.omega = m.cube + 1/m.cube - 1
	m.sigma = math.Sqrt(math.Log(m.omega))
	m.scale = math.Sqrt(m.variance / (m.omega * (m.omega - 1)))
	m.shift = m.mean - float64(m.scale*math.Sqrt(m.omega))
}

// ceiling is what the months allow after leg j; no limit where time does not count.
func (b *book) ceiling(w *wearing, j int) float64 {
	if j < len(w.p.Cap) && finite(w.p.Cap[j]) {
		return w.u.factor() * w.p.Cap[j]
	}
	return noMore
}

var workHeads = []string{
	"Set", "Point", "Leg", "wear", "spread", "road", "circuit", "lift", "lifted", "x spread", "exp var", "mean", "variance", "third", "skew", "cube", "omega", "sigma", "scale", "offset",
	"left", "5 %", "95 %", "limit", "margin", "life", "passed", "beyond", "months", "exp var", "gauge", "base",
}

// workings is the hidden sheet that follows every point through the trip.
func (b *book) workings() *sheet {
	s := &sheet{name: workingsName, wide: true, hidden: true}
	for range workColumns {
		s.widths = append(s.widths, 15)
	}
	s.title("Workings", "What the other sheets are worked out from. The level is the start less the wear on the road, the wear on circuits and the gauge error: a lognormal with an offset of the same mean, variance and third moment.")
	b.warn(s)
	var heads []cell
	for _, h := range workHeads {
		heads = append(heads, left(h))
	}
	s.add(heads...)
	s.head = len(s.rows)
	for _, w := range b.wear {
		b.begin(s, w)
		for k := range b.driven {
			b.advance(s, w, k)
		}
		s.addHigh(lineHeight)
	}
	return s
}

// begin is a point's first row: its start, and what the rows below share.
func (b *book) begin(s *sheet, w *wearing) {
	n := s.next()
	at := func(col int) string { return s.at(col, n, 0).in(s) }
	first := w.steps[0]
	cells := make([]cell, workColumns)
	put := func(col int, formula string, v float64) { cells[col-1] = live(look{}, "0.0000", formula, v) }
	planned := b.car.hiddenAt(carPlanStart, w.row, 0).in(s)
	asRead := fmt.Sprintf("%s=%s", w.start.in(s), planned)
	cells[workSet-1], cells[workPoint-1], cells[workLeg-1] = text(look{}, w.set.ID), text(look{}, w.spot()), text(look{}, "start")
	put(workRoad, fmt.Sprintf("IF(%s,%s,0)", asRead, w.priorRoad.in(s)), first.sums.road)
	put(workCircuit, fmt.Sprintf("IF(%s,%s,0)", asRead, w.priorCirc.in(s)), first.sums.circuit)
	if w.banded() {
		put(workLifted, at(workCircuit), first.sums.lifted)
		put(workWeighted, fmt.Sprintf("%s*%s", at(workCircuit), w.circuit.in(s)), first.sums.weighted)
		put(workWr, fmt.Sprintf("EXP(%[1]s*%[1]s)", w.road.in(s)), math.Exp(w.road.v*w.road.v))
		put(workGauge, fmt.Sprintf("IF(%s,%s,%s)", asRead, w.gauge.in(s), w.reading.in(s)), w.gauge.v)
	}
	put(workLeft, w.start.in(s), w.start.v)
	put(workBase, fmt.Sprintf("%s+%s+%s", at(workLeft), at(workRoad), at(workCircuit)), w.start.v+first.sums.road+first.sums.circuit)
	put(workShare, b.lifeLeft(s, w, at(workLeft)), first.share.v)
	s.addHigh(lineHeight, cells...)
}

// lifeLeft is the share of a new part's life in a level.
func (b *book) lifeLeft(s *sheet, w *wearing, level string) string {
	life := fmt.Sprintf("(%s-%s)", w.fresh.in(s), w.limit.in(s))
	return fmt.Sprintf("IF(%[1]s>0,(%[2]s-%[3]s)/%[1]s,0)", life, level, w.limit.in(s))
}

// advance is the row of a point after the kth driven leg.
func (b *book) advance(s *sheet, w *wearing, k int) {
	n, j := s.next(), b.driven[k]
	st := w.steps[k+1]
	m := st.sums
	at := func(col int) string { return s.at(col, n, 0).in(s) }
	before := func(col int) string { return s.at(col, n-1, 0).in(s) }
	shared := func(col int) string { return s.at(col, w.from, 0).in(s) }
	cells := make([]cell, workColumns)
	put := func(col int, formula string, v float64) { cells[col-1] = live(look{}, "0.0000", formula, v) }
	cells[workSet-1], cells[workPoint-1], cells[workLeg-1] = text(look{}, w.set.ID), text(look{}, w.spot()), text(look{}, b.legName(j))
	put(workWear, w.wear[k].in(s), w.wear[k].v)
	put(workSpread, w.spread[k].in(s), w.spread[k].v)
	put(workLift, "", w.lift(j))
	wear, none := "+"+at(workWear), ""
	road, circuit := wear, none
	if b.p.Legs[j].Kind != profiles.RoadLeg {
		road, circuit = none, wear
	}
	put(workRoad, before(workRoad)+road, m.road)
	put(workCircuit, before(workCircuit)+circuit, m.circuit)
	nominal := fmt.Sprintf("%s-%s-%s", shared(workBase), at(workRoad), at(workCircuit))
	if c := b.ceiling(w, j); c < noMore {
		put(workCap, "", c)
		nominal = fmt.Sprintf("MIN(%s,%s)", at(workCap), nominal)
	}
	put(workLeft, nominal, st.left.v)
	put(workShare, b.lifeLeft(s, w, at(workLeft)), st.share.v)
	passes := func(col int, line ref, past bool) {
		c := told(look{}, fmt.Sprintf(`IF(%s<=%s,%d,"")`, at(workLeft), line.in(s), j+1), "")
		if past {
			c.value = j + 1
		}
		cells[col-1] = c
	}
	passes(workPassed, w.margin, st.passed)
	passes(workBeyond, w.limit, st.beyond)
	if w.banded() {
		b.spreadOut(s, w, put, at, before, shared, circuit != none, b.ceiling(w, j) < noMore, st)
	}
	s.addHigh(lineHeight, cells...)
}

// spreadOut writes the band's columns.
func (b *book) spreadOut(s *sheet, w *wearing, put func(int, string, float64), at, before, shared func(int) string, circuit, capped bool, st step) {
	m := st.sums
	lifted, weighted := before(workLifted), before(workWeighted)
	if circuit {
		lifted += fmt.Sprintf("+%s*%s", at(workWear), at(workLift))
		weighted += fmt.Sprintf("+%s*%s*%s", at(workWear), at(workLift), at(workSpread))
	}
	put(workLifted, lifted, m.lifted)
	put(workWeighted, weighted, m.weighted)
	put(workWc, fmt.Sprintf("IF(%[1]s>0,EXP((%[2]s/%[1]s)^2),1)", at(workLifted), at(workWeighted)), m.wc)
	wr, wc := shared(workWr), at(workWc)
	r, c := fmt.Sprintf("(%s*SQRT(%s))", at(workRoad), wr), fmt.Sprintf("(%s*SQRT(%s))", at(workLifted), wc)
	put(workMean, r+"+"+c, m.mean)
	variance := fmt.Sprintf("%s^2*(%s-1)+%s^2*(%s-1)+%s^2", r, wr, c, wc, shared(workGauge))
	put(workVar, fmt.Sprintf("IF(%[1]s<%[2]s,0,%[1]s)", variance, literal(leastVar)), m.variance)
	put(workThird, fmt.Sprintf("%[1]s^3*(%[2]s-1)^2*(%[2]s+2)+%[3]s^3*(%[4]s-1)^2*(%[4]s+2)", r, wr, c, wc), m.third)
	put(workSkew, fmt.Sprintf("IF(%[1]s>0,MAX(%[3]s,%[2]s/%[1]s^1.5),%[3]s)", at(workVar), at(workThird), literal(leastSkew)), m.skew)
	put(workCube, fmt.Sprintf("((%[1]s^2+2-%[1]s*SQRT(%[1]s^2+4))/2)^(1/3)", at(workSkew)), m.cube)
	put(workOmega, fmt.Sprintf("%[1]s+1/%[1]s-1", at(workCube)), m.omega)
	put(workSigma, fmt.Sprintf("SQRT(LN(%s))", at(workOmega)), m.sigma)
	put(workScale, fmt.Sprintf("SQRT(%[1]s/(%[2]s*(%[2]s-1)))", at(workVar), at(workOmega)), m.scale)
	put(workShift, fmt.Sprintf("%s-%s*SQRT(%s)", at(workMean), at(workScale), at(workOmega)), m.shift)
	held := func(format string, a ...any) string { // to what the months allow
		f := fmt.Sprintf(format, a...)
		return choose(capped, fmt.Sprintf("MIN(%s,%s)", at(workCap), f), f)
	}
	reach := func(sign string) string {
		return held("%s-%s-%s*EXP(%s%s*%s)", shared(workBase), at(workShift), at(workScale), sign, literal(tail), at(workSigma))
	}
	put(workLo, reach(""), st.lo.v)
	put(workHi, reach("-"), st.hi.v)
	crossed := func(line ref) string {
		x := fmt.Sprintf("(%s-%s-%s)", shared(workBase), line.in(s), at(workShift))
		f := fmt.Sprintf("IF(%[2]s<=0,IF(%[3]s<=%[1]s,1,0),IF(%[4]s<=0,1,NORMSDIST(-LN(MAX(%[4]s,1E-300)/%[2]s)/%[5]s)))",
			line.in(s), at(workScale), at(workLeft), x, at(workSigma))
		return choose(capped, fmt.Sprintf("IF(%s<=%s,1,%s)", at(workCap), line.in(s), f), f)
	}
	put(workLimit, crossed(w.limit), st.pLimit.v)
	put(workPast, crossed(w.margin), st.pPast.v)
}
