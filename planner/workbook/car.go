package workbook

import (
	"fmt"
	"slices"
	"strings"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
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

// Hidden cells of a point's row.
const (
	carChanged = iota
	carPlanStart
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

// condition lists every point that wears: where it stands, what is asked of
// it, and where the trip leaves it.
func (b *book) condition() {
	s := b.car
	s.title("Car", "Every point as it stands and as the trip leaves it, nothing renewed on the way. Write another reading, margin or limit into the marked cells; what follows is live.")
	b.warn(s)
	s.add(left("Set"), left("Where"), left("Unit"), right("Now"), right("Margin"), right("Limit"), right("Trip takes"), right("Left at the end"), center("5 – 95 %"),
		right("Life left, %"), right("Limit crossed, %"), right("the same, as planned"), left("Status at the end"), right("Margin passed on leg"), right("Limit passed on leg"), left("How \"now\" is known"), left("Changed"))
	s.head = len(s.rows)
	shown := ""
	for _, w := range b.wear {
		name := choose(w.set.Name == shown, "", w.set.Name)
		shown = w.set.Name
		b.point(s, w, name)
	}
	last := carFirst + len(b.wear) - 1
	sum := fmt.Sprintf("SUM(%s)", s.hiddenAt(carChanged, carFirst, 0).upTo(s.hiddenAt(carChanged, last, 0), s))
	s.hide(1, live(look{}, "0", sum, 0))
	s.span(look{weight: quiet}, "Left at the end is nominal: the model's own rates, no luck either way. The band and the chance are worked out from the rates' spreads: the sum of what wears on the road and on circuits, and the gauge error, "+
		"is taken as a lognormal with an offset that has the same mean, variance and third moment. On the demos that is within 0.03 of the chance and 5 % of a new part's life of the program's own draws, whose chance stands beside it as planned. "+
		"A reading you change counts as measured. Hub bearings and brake fluid have no such form: their chances are as planned, on the sheets Oil and bearings and Brakes. Life left is the share of a new part's life.")
	cell := func(col int) (ref, ref) { return s.at(col, carFirst, 0), s.at(col, last, 0) }
	from, to := cell(carStatus)
	first := relative(from.in(s))
	s.marks = append(s.marks,
		mark{from.upTo(to, s), first + "=" + quoted(pastLimit), out},
		mark{from.upTo(to, s), first + "=" + quoted(belowMargin), low})
}

// point is a row of the Car sheet.
func (b *book) point(s *sheet, w *wearing, name string) {
	n, box, in := s.next(), look{box: true}, look{input: true}
	end, u := w.last(), w.u
	last := len(b.p.Legs) - 1
	cells := make([]cell, len(s.widths))
	for i := range cells {
		cells[i] = blank(box)
	}
	unit := choose(u.format == asShare, "life", u.name)
	cells[carSet-1], cells[carSpot-1], cells[carUnit-1] = text(look{weight: strong, box: true}, name), text(box, w.spot()), text(look{weight: quiet, box: true}, unit)
	most := 2*w.fresh.v + 1
	cells[carStart-1] = number(in, u.format, w.start.v)
	s.restrict(w.start.in(s), rule{most: most})
	if w.banded() { // a hub has no level to stop at
		cells[carLimit-1], cells[carMargin-1] = number(in, u.format, w.limit.v), number(in, u.format, w.margin.v)
		s.restrict(w.limit.in(s), rule{most: most})
		s.restrict(w.margin.in(s), rule{most: most})
	}
	takes := 0.0
	for _, r := range w.wear {
		takes += r.v
	}
	cells[carTakes-1] = live(box, u.format, fmt.Sprintf("SUM(%s)", w.workings(workWear, 1, len(b.driven), s)), takes)
	cells[carLeft-1] = live(look{weight: strong, box: true}, u.format, fmt.Sprintf("MAX(0,%s)", end.left.in(s)), max(0, end.left.v))
	cells[carLife-1] = live(box, asShare, fmt.Sprintf("MAX(0,%s)", end.share.in(s)), max(0, end.share.v))
	if w.banded() {
		cells[carBand-1] = u.around(look{weight: quiet, box: true}, s, end.lo, end.hi)
		cells[carChance-1] = live(look{weight: strong, box: true}, asChance, end.pLimit.in(s), end.pLimit.v)
	} else {
		cells[carChance-1] = text(look{box: true, across: "right"}, "–")
	}
	cells[carPlanned-1] = asPlanned(b.u.chance.in(box, w.p.After[last].PLimit))
	if w.banded() {
		cells[carStatus-1] = told(box, status(end.left.in(s), w.margin.in(s), w.limit.in(s), quoted(good)), choose(end.beyond, pastLimit, choose(end.passed, belowMargin, good)))
		cells[carPassed-1] = b.firstLeg(s, w, workPassed, func(st step) bool { return st.passed })
		cells[carBeyond-1] = b.firstLeg(s, w, workBeyond, func(st step) bool { return st.beyond })
	} else {
		cells[carStatus-1] = text(look{weight: quiet, box: true}, "by hand, at each stop")
	}
	cells[carKnown-1] = text(look{weight: quiet, box: true}, w.known())
	at := func(i int) string { return s.hiddenAt(i, n, 0).in(s) }
	cells[carMark-1] = told(look{box: true, weight: warning}, fmt.Sprintf(`IF(%s>0,"changed","")`, at(carChanged)), "")
	s.add(cells...)
	if heats(w.p.Measure) {
		s.heated(s.at(carTakes, n, 0), s.at(carBeyond, n, 0))
	}
	changed := fmt.Sprintf("IF(OR(%s<>%s,%s<>%s,%s<>%s),1,0)", w.start.in(s), at(carPlanStart), w.margin.in(s), at(carPlanMargin), w.limit.in(s), at(carPlanLimit))
	plain := func(v float64) cell { return number(look{}, "0.0000", v) }
	s.hide(n, live(look{}, "0", changed, 0), plain(w.start.v), plain(w.margin.v), plain(w.limit.v), plain(w.fresh.v),
		plain(w.gauge.v), plain(w.reading.v), plain(w.priorRoad.v), plain(w.priorCirc.v))
}

// status judges a level against a margin and a limit; otherwise is the formula
// for a level that is above both.
func status(level, margin, limit, otherwise string) string {
	return fmt.Sprintf("IF(%s<=%s,%s,IF(%s<=%s,%s,%s))", level, limit, quoted(pastLimit), level, margin, quoted(belowMargin), otherwise)
}

// known says in a word where a point's start comes from.
func (w *wearing) known() string {
	switch {
	case strings.HasPrefix(w.set.Measured, "estimated") && w.set.Kind == profiles.Bearing, w.priorRoad.v+w.priorCirc.v > 0:
		return "estimated"
	case w.start.v == w.fresh.v:
		return "as new"
	}
	return "as given"
}

// firstLeg is the number of the leg on which a line is passed, empty for none.
func (b *book) firstLeg(s *sheet, w *wearing, col int, past func(step) bool) cell {
	legs := w.workings(col, 1, len(b.driven), s)
	c := told(look{box: true, format: "0"}, fmt.Sprintf(`IF(COUNT(%[1]s)=0,"",MIN(%[1]s))`, legs), "")
	if k := slices.IndexFunc(w.steps[1:], past); k >= 0 {
		c.value = b.driven[k] + 1
	}
	return c
}

// rows of the Car sheet that hold a kind's points; false where it has none.
func (b *book) rowsOf(kind profiles.Kind) (first, last int, ok bool) {
	for _, w := range b.wear {
		if w.set.Kind != kind {
			continue
		}
		if !ok {
			first, ok = w.row, true
		}
		last = w.row
	}
	return first, last, ok
}

// tightest is the wearing point of a kind with the least life left at the end.
func (b *book) tightest(kind profiles.Kind) *wearing {
	var out *wearing
	for _, w := range b.wear {
		if w.set.Kind == kind && (out == nil || w.last().share.v < out.last().share.v) {
			out = w
		}
	}
	return out
}

// after is the point's state after leg j, -1 the start.
func (b *book) after(p planner.Point, j int) (w *wearing, st step, ok bool) {
	if w = b.find(p); w == nil {
		return nil, step{}, false
	}
	k := slices.Index(b.driven, j)
	return w, w.steps[k+1], j < 0 || k >= 0
}
