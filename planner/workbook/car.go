package workbook

import (
	"strings"

	"example.com/tripwear/planner/workbook/expr"
)

// Columns of the Car sheet, and its first row of points.
const (
	carSet = 1 + iota
	carSpot
	carUnit
	carStart
	carMargin
	carLimit
	carTakes
	carLeft
	carBand
	carLife
	carChance
	carPlanned
	carStatus
	carPassed
	carBeyond
	carKnown
	carMark

	carFirst = 5
)

// Hidden cells of a point's row beside whether it changed.
const (
	carPlanStart = 1 + iota
	carPlanMargin
	carPlanLimit
	carNew
	carGauge
	carReading
	carPriorRoad
	carPriorCircuit
)

var carWidths = []float64{16, 13, 8, 7, 7, 7, 7, 7.5, 12.5, 7, 8, 8, 20, 7.5, 7.5, 10.5, 8.5}

// The words of a status, from the worst.
const (
	pastLimit   = "PAST LIMIT"
	belowMargin = "below margin"
	good        = "good"
)

// carRow is what a point's row gives to others.
type carRow struct{ spot, life, status expr.Ref }

// carOf lists every point that wears: where it stands, what is asked of it, and
// where the trip leaves it.
func carOf(v view, all worn) (*sheet, []carRow) {
	s := &sheet{name: carName, wide: true, side: 2, widths: carWidths}
	s.title("Car", "Every point as it stands and as the trip leaves it, nothing replaced on the way. Write another reading, margin or limit into the marked cells; what follows is live.")
	warn(s)
	s.heads(left("Set"), left("Where"), left("Unit"), right("Now"), right("Margin"), right("Limit"), right("Trip takes"), right("Left at the end"), center("5 – 95 %"),
		right("Life left, %"), right("Limit crossed, %"), right("the same, as planned"), left("Status at the end"), right("Margin passed on leg"), right("Limit passed on leg"), left("How \"now\" is known"), left("Changed"))
	var rows []carRow
	var changed, judged expr.Run
	shown := ""
	for _, w := range all {
		row, flag := w.onCar(v, s, choose(w.set.Name == shown, "", w.set.Name))
		rows, changed, judged = append(rows, row), append(changed, flag), append(judged, row.status)
		shown = w.set.Name
	}
	s.hide(1, flag(expr.F("SUM(a)", changed)))
	s.span(look{weight: quiet}, "Left at the end is nominal: the model's own rates, no luck either way. The band and the chance are worked out from the rates' spreads: the sum of what wears on the road and on circuits, and the gauge error, "+
		"is taken as a lognormal with an offset that has the same mean, variance and third moment. On the demos that is within 0.03 of the chance and 6 % of a new part's life of the program's own draws, whose chance stands beside it as planned. "+
		"A reading you change counts as measured. Hub bearings and brake fluid have no such form: their chances are as planned, on the sheets Oil and bearings and Brakes. Life left is the share of a new part's life.")
	if len(judged) > 0 {
		from, to := judged[0], judged[len(judged)-1]
		s.word(from, to, pastLimit, out)
		s.word(from, to, notNumber, out)
		s.word(from, to, belowMargin, low)
	}
	return s, rows
}

// status judges a level against a margin and a limit; otherwise stands for a
// level that is above both.
func status(level expr.X, w *point, otherwise expr.X) expr.X {
	return expr.F("IF(a<=b,c,IF(a<=d,e,f))", level, w.limit, expr.Text(pastLimit), w.margin, expr.Text(belowMargin), otherwise)
}

// onCar is a point's row of the Car sheet, and the flag of its inputs.
func (w *wearing) onCar(v view, s *sheet, name string) (carRow, expr.Ref) {
	box, bold, faint := look{box: true}, look{weight: strong, box: true}, look{weight: quiet, box: true}
	end, u, d := w.last(), w.u, s.draft(box)
	d.put(carSet, text(bold, name))
	at := carRow{spot: d.put(carSpot, text(box, w.spot()))}
	d.put(carUnit, text(faint, u.called()))
	inputs := []struct {
		col int
		at  expr.Ref
	}{{carStart, w.start}, {carLimit, w.limit}, {carMargin, w.margin}}
	for i, in := range inputs {
		if i == 0 || w.banded() { // a hub has no level to stop at
			d.put(in.col, number(look{input: true}, u.format, in.at.Num()))
			s.restrict(in.at, rule{most: 2*w.fresh.Num() + 1})
		}
	}
	d.put(carTakes, live(box, u.format, expr.F("SUM(a)", w.takes(w.rates))))
	d.put(carLeft, live(bold, u.format, expr.F("MAX(0,a)", end.left)))
	at.life = d.put(carLife, live(box, asShare, expr.F("MAX(0,a)", end.share)))
	d.put(carPlanned, asPlanned(v.u.chance.in(box, w.p.After[v.last()].PLimit)))
	if w.banded() {
		d.put(carBand, u.between(faint, end.lo, end.hi))
		d.put(carChance, live(bold, asChance, end.pLimit))
		at.status = d.put(carStatus, live(box, "", orNotNumber(wearWrong, status(end.left, w.point, expr.Text(good)))))
		d.put(carPassed, live(box, "0", expr.F(`IF(COUNT(a)=0,"",MIN(a))`, w.passed)))
		d.put(carBeyond, live(box, "0", expr.F(`IF(COUNT(a)=0,"",MIN(a))`, w.beyond)))
	} else {
		d.put(carChance, text(look{box: true, across: "right"}, "–"))
		at.status = d.put(carStatus, text(faint, "by hand, at each stop"))
	}
	d.put(carKnown, text(faint, w.known()))
	changed := d.changed(w.start, w.margin, w.limit)
	for _, planned := range []expr.Ref{w.start, w.margin, w.limit, w.fresh, w.gauge, w.reading, w.priorRoad, w.priorCirc} {
		d.hide(number(look{}, "0.0000", planned.Num()))
	}
	d.put(carMark, changedMark(changed))
	d.add()
	if w.Heats {
		s.heated(d.at(carTakes), d.at(carBeyond))
	}
	return at, changed
}

// known says in a word where a point's start comes from.
func (w *point) known() string {
	switch {
	case strings.HasPrefix(w.set.Measured, "estimated") && !w.banded(), w.priorRoad.Num()+w.priorCirc.Num() > 0:
		return "estimated"
	case w.start.Num() == w.fresh.Num():
		return "as new"
	}
	return "as given"
}
