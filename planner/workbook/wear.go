package workbook

import (
	"fmt"
	"slices"
	"strings"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/workbook/expr"
)

const wearName = "Wear"

// Columns of the Wear sheet; those of the legs come between.
const (
	wearSet = 1 + iota
	wearSpot
	wearUnit
	wearNow
	wearMargin
	wearLimit
	wearStart
	wearLegs // the first
)

// wearColumns is how many legs a block of the sheet has side by side.
const wearColumns = 8

const (
	wearBand = wearLegs + wearColumns + iota
	wearChance
	wearStatus
	wearKnown
	wearWidth = wearKnown

	wearHeads = 4 // row; a heading of the first group follows
)

// Hidden cells of a point's row beside whether it changed.
const (
	planStart = 1 + iota
	planMargin
	planLimit
	partNew
	partGauge
	partReading
	priorRoad
	priorCircuit
	pointLife
)

// The words of a status, from the worst.
const (
	pastLimit   = "PAST LIMIT"
	belowMargin = "below margin"
	good        = "good"
)

// wearRow is what a point's row gives to others.
type wearRow struct{ spot, life, status, shown expr.Ref }

// wearSheet is the sheet in the making.
type wearSheet struct {
	*sheet
	v     view
	all   worn
	rows  map[*wearing]wearRow
	shown map[*wearing]expr.Run // the levels shown: leaving, then after each driven leg
}

// wearWidths gives few legs more room; columns without a leg are a line.
func wearWidths(v view) []float64 {
	out := []float64{14, 12.5, 6.5, 6.2, 6.6, 6, 6.6}
	n := min(wearColumns, len(v.driven))
	for i := range wearColumns {
		out = append(out, choose(i < n, min(12, (44-float64(0.5*float64(wearColumns-n)))/float64(max(1, n))), 0.5))
	}
	return append(out, 11, 6.5, 11, 7.5)
}

// wearOf lists every point that wears, group by group: where it stands, what is
// asked of it, what it has left after each leg and where the trip leaves it; then
// the charts of that.
func wearOf(v view, all worn) *wearSheet {
	s := &wearSheet{&sheet{name: wearName, wide: true, side: 2, widths: wearWidths(v)}, v, all, map[*wearing]wearRow{}, map[*wearing]expr.Run{}}
	s.switched(wearName, "What is left after each leg, AS DECIDED: what is replaced reads as new from there. Write another reading, margin or limit into the marked cells; the Card has the switch.",
		"What is left after each leg, AS IT STANDS: nothing replaced on the way. Write another reading, margin or limit into the marked cells; the Card has the switch.")
	warn(s.sheet)
	s.titles = wearHeads
	legs := v.driven[:min(wearColumns, len(v.driven))]
	s.heads(s.headsOf(legs, true)...)
	changed := s.points(legs)
	s.hide(1, flag(expr.F("SUM(a)", changed)))
	s.fluid(legs)
	s.more()
	s.notes()
	s.graphs()
	return s
}

// headsOf are the heads of a block.
func (s *wearSheet) headsOf(legs []int, first bool) []cell {
	cells := make([]cell, wearWidth)
	for i := range cells {
		cells[i] = left("")
	}
	cells[wearSet-1], cells[wearSpot-1], cells[wearUnit-1] = left("Set"), left("Where"), left("Unit")
	for i, j := range legs {
		cells[wearLegs-1+i] = center(s.v.legShort(j))
	}
	if first {
		for col, name := range map[int]string{wearNow: "Now", wearMargin: "Margin", wearLimit: "Limit", wearStart: "Leaves", wearChance: "Past limit"} {
			cells[col-1] = center(name)
		}
		cells[wearBand-1], cells[wearStatus-1], cells[wearKnown-1] = center("Home, 5 – 95 %"), left("Status, home"), left("Now is")
	}
	return cells
}

// points are the rows of all points, with a heading for each group.
func (s *wearSheet) points(legs []int) (changed expr.Run) {
	group, shown := "", ""
	from := 0
	marked := func() {
		if from > 0 && len(legs) > 0 {
			s.tones(from, s.next()-1, from, len(legs))
		}
	}
	for _, w := range s.all {
		if g := w.Sheet; g != group {
			marked()
			s.keepRows(3)
			s.span(look{weight: heading}, g)
			group, from = g, s.next()
		}
		changed = append(changed, s.point(w, choose(w.set.Name == shown, "", w.set.Name), legs))
		shown = w.set.Name
	}
	marked()
	return changed
}

// tones marks the levels of rows against the limits and margins that stand from
// a row on.
func (s *wearSheet) tones(from, to, lines, legs int) {
	at := func(col, row int) expr.Ref { return s.at(col, row, 0) }
	for _, line := range []struct {
		col  int
		tone tone
	}{{wearLimit, out}, {wearMargin, low}} {
		first := choose(lines == from, wearStart, wearLegs)
		level, bound := at(first, from).Free(), at(line.col, lines).Across()
		s.mark(at(first, from), at(wearLegs-1+legs, to), expr.F("IF(ISNUMBER(a),IF(ISNUMBER(b),a<=b,0),0)", level, bound), line.tone)
	}
	if lines == from {
		status := at(wearStatus, from)
		s.word(status, at(wearStatus, to), pastLimit, out)
		s.word(status, at(wearStatus, to), notNumber, out)
		s.word(status, at(wearStatus, to), belowMargin, low)
	}
}

// point is a point's row, and the flag of its inputs.
func (s *wearSheet) point(w *wearing, name string, legs []int) expr.Ref {
	box, bold, faint := look{box: true}, look{weight: strong, box: true}, look{weight: quiet, box: true}
	chance := look{weight: strong, box: true, across: "center"}
	end, u, d := w.last(), w.u, s.draft(box)
	if d.put(wearSet, blank(box)); name != "" {
		d.put(wearSet, text(bold, name))
	}
	at := wearRow{spot: d.put(wearSpot, text(box, w.spot()))}
	d.put(wearUnit, text(faint, u.called()))
	for _, in := range []struct {
		col int
		at  expr.Ref
	}{{wearNow, w.start}, {wearLimit, w.limit}, {wearMargin, w.margin}} {
		if in.col == wearNow || w.banded() { // a hub has no level to stop at
			d.put(in.col, number(look{input: true, across: "center"}, w.format(), in.at.Num()))
			s.restrict(in.at, rule{most: 2*w.fresh.Num() + 1})
		}
	}
	at.shown = s.level(d, w, wearStart, 0)
	for i := range legs {
		s.level(d, w, wearLegs+i, i+1)
	}
	if w.banded() {
		d.put(wearBand, u.between(faint, end.lo, end.hi))
		d.put(wearChance, live(chance, asChance, w.crossed(s.v)))
		at.status = d.put(wearStatus, live(box, "", orNotNumber(wearWrong, status(end.left, w.point, expr.Text(good)))))
	} else {
		d.put(wearChance, asPlanned(s.v.u.chance.in(chance, w.p.After[s.v.last()].PLimit)))
		at.status = d.put(wearStatus, text(faint, "by hand"))
	}
	changed := d.changed(w.start, w.margin, w.limit)
	for _, planned := range []expr.Ref{w.start, w.margin, w.limit, w.fresh, w.gauge, w.reading, w.priorRoad, w.priorCirc} {
		d.hide(number(look{}, "0.0000", planned.Num()))
	}
	at.life = d.hide(live(look{}, asShare, expr.F("MAX(0,a)", end.share)))
	d.put(wearKnown, live(faint, "", expr.F(`IF(a>0,"changed",b)`, changed, expr.Text(w.known()))))
	d.add()
	if w.Heats {
		s.heated(d.at(wearLegs), d.at(wearStatus))
	}
	s.rows[w] = at
	return changed
}

// level fills a column with what a point has after so many driven legs: of a hub
// the chance that it lasts.
func (s *wearSheet) level(d *draft, w *wearing, col, k int) expr.Ref {
	l := look{box: true, across: "center"}
	var at expr.Ref
	switch {
	case w.banded():
		at = d.put(col, live(l, w.format(), expr.F("MAX(0,a)", w.steps[k].left)))
	case k > 0:
		at = d.put(col, asPlanned(s.v.u.chance.in(l, 1-w.p.After[s.v.driven[k-1]].PLimit)))
	case k == 0:
		at = d.put(col, blank(l))
	}
	s.shown[w] = append(s.shown[w], at)
	return at
}

// format is the unit's, without a mark at the thousands.
func (w *wearing) format() string { return choose(w.u.format == asWhole, "0", w.u.format) }

// more are the blocks of the legs that the first has no room for.
func (s *wearSheet) more() {
	for from := wearColumns; from < len(s.v.driven); from += wearColumns {
		legs := s.v.driven[from:min(from+wearColumns, len(s.v.driven))]
		s.keepRows(len(s.all)/2 + 6)
		s.section(fmt.Sprintf("Legs %d to %d", legs[0]+1, legs[len(legs)-1]+1))
		s.add(s.headsOf(legs, false)...)
		shown, lines, begun := "", 0, s.next()
		for _, w := range s.all {
			if lines > 0 && w.row != lines+s.next()-begun { // a heading stands between
				s.tones(begun, s.next()-1, lines, len(legs))
				lines = 0
			}
			if lines == 0 {
				lines, begun = w.row, s.next()
			}
			d := s.draft(look{box: true})
			d.put(wearSet, text(look{weight: strong, box: true}, choose(w.set.Name == shown, "", w.set.Name)))
			d.put(wearSpot, text(look{box: true}, w.spot()))
			d.put(wearUnit, text(look{weight: quiet, box: true}, w.u.called()))
			for i := range legs {
				s.level(d, w, wearLegs+i, from+i+1)
			}
			d.add()
			if w.Heats {
				s.heated(d.at(wearLegs), d.at(wearLegs-1+len(legs)))
			}
			shown = w.set.Name
		}
		s.tones(begun, s.next()-1, lines, len(legs))
	}
}

// fluid is the rows of what does not wear: the least margin so far.
func (s *wearSheet) fluid(legs []int) {
	u := s.v.u.warmth
	for _, t := range s.v.Sets {
		if kindOf(t.Kind).left != marginLeft || len(t.Points) == 0 {
			continue
		}
		p, box, faint := t.Points[0], look{box: true}, look{weight: quiet, box: true}
		s.keepRows(3)
		s.span(look{weight: heading}, sentenceCase(t.Name)+": least margin to boiling so far, median, as planned")
		d := s.draft(box)
		d.put(wearSet, text(look{weight: strong, box: true}, t.Name))
		d.put(wearSpot, text(box, "to boil"))
		d.put(wearUnit, text(faint, u.name))
		d.put(wearMargin, u.in(look{box: true, across: "center"}, p.Margin))
		d.put(wearLimit, u.in(look{box: true, across: "center"}, p.Limit))
		for i, j := range legs {
			if s.v.beenOnCircuit(j) {
				d.put(wearLegs+i, asPlanned(u.in(look{box: true, across: "center"}, p.After[j].P50)))
			}
		}
		if last := p.After[s.v.last()]; s.v.beenOnCircuit(s.v.last()) {
			d.put(wearBand, asPlanned(text(look{weight: quiet, box: true, across: "center"}, u.band(last))))
			d.put(wearChance, asPlanned(s.v.u.chance.in(look{weight: strong, box: true, across: "center"}, last.PLimit)))
		}
		d.put(wearStatus, text(faint, "by the pedal"))
		d.add()
	}
}

func (s *wearSheet) notes() {
	s.span(look{weight: quiet}, "Left is nominal, no luck either way; framed at or below the margin, white on dark at or below the limit. Band and chance are the rates' spreads' (Workings): on the demos within 0.03 and 6 % of a life of the program's draws. "+
		"A reading you change counts as measured. Of hubs and fluid only the draws know: as planned, as it stands. What was found comes before any figure.")
}

// status judges a level against a margin and a limit; otherwise stands for a
// level that is above both.
func status(level expr.X, w *point, otherwise expr.X) expr.X {
	return expr.F("IF(a<=b,c,IF(a<=d,e,f))", level, w.limit, expr.Text(pastLimit), w.margin, expr.Text(belowMargin), otherwise)
}

// known says in a word where a point's start comes from.
func (w *point) known() string {
	switch {
	case strings.HasPrefix(w.set.Measured, "estimated") && !w.banded(), w.priorRoad.Num()+w.priorCirc.Num() > 0:
		return "guessed"
	case w.start.Num() == w.fresh.Num():
		return "as new"
	}
	return "as given"
}

// ofSet are the rows of a set's points.
func (s *wearSheet) ofSet(t plan.Set) (status, where, life expr.Run) {
	for _, w := range s.all {
		if w.set.ID == t.ID {
			r := s.rows[w]
			status, where, life = append(status, r.status), append(where, r.spot), append(life, r.life)
		}
	}
	return status, where, life
}

// graphs are the charts of the groups, two abreast.
func (s *wearSheet) graphs() {
	var charts []chart
	done := map[string]bool{}
	for _, w := range s.all {
		m := w.measure
		if m.chart == "" || done[m.chart] {
			continue
		}
		done[m.chart] = true
		charts = append(charts, s.byLeg(m, s.v.points(m.Measure)))
	}
	for i, two := range slices.Collect(slices.Chunk(charts, 2)) {
		s.toCome = (len(charts)-1)/2 - i
		s.chart(two...)
	}
}

// byLeg charts what the least of every wheel's points has, leaving and by leg,
// with the limit.
func (s *wearSheet) byLeg(m measure, points []plan.Point) chart {
	u := m.unit(s.v.u)
	c := chart{title: m.chart, alt: m.alt, x: "after leg", y: u.head("left"), format: u.format, labels: s.v.byLeg()}
	hub := !s.all.find(points[0]).banded()
	switch {
	case hub:
		c.y, c.top, c.format = "chance of lasting", 1, asShare
	case u.percent():
		c.y, c.top = "share of life left", 1
	}
	for _, place := range columns {
		var rows []*wearing
		for _, p := range points {
			if p.Place == place {
				rows = append(rows, s.all.find(p))
			}
		}
		if len(rows) > 0 {
			c.lines = append(c.lines, s.line(place, rows))
		}
	}
	for _, p := range points {
		w := s.all.find(p)
		if hub || w.limit.Num() <= 0 || slices.ContainsFunc(c.lines, func(l line) bool { return l.limit && l.values[0].Value().Num == w.limit.Num() }) {
			continue // the axis itself, or drawn already
		}
		name := choose(points[0].Limit != p.Limit, "limit "+p.Place, "limit")
		c.lines = append(c.lines, line{name: name, limit: true, values: slices.Repeat([]expr.X{w.limit}, len(c.labels))})
	}
	if hub {
		c.bottom()
	}
	return c
}

// line is a chart's line for the points of one wheel. Points of a wheel need
// not be neighbors, so that the function takes them one by one.
func (s *wearSheet) line(name string, rows []*wearing) line {
	out := line{name: name}
	for k := range len(s.v.driven) + 1 {
		var cells []expr.X
		for _, w := range rows {
			if k == 0 && !w.banded() {
				cells = append(cells, expr.Num(1))
				continue
			}
			cells = append(cells, s.shown[w][k])
		}
		out.values = append(out.values, expr.Each("MIN", cells))
	}
	return out
}

// bottom lets a chart of chances begin where it can be read: at the tenth
// below the lowest.
func (c *chart) bottom() {
	low := 1.0
	for _, l := range c.lines {
		for _, x := range l.values {
			if v := x.Value().Num; finite(v) {
				low = min(low, v)
			}
		}
	}
	c.low = max(0, float64(int(float64(low*10)-0.01))/10)
}
