package workbook

import (
	"slices"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/workbook/expr"
)

// levels is a sheet of tables of points, and the charts of what they show.
type levels struct {
	*sheet
	v     view
	all   worn
	shown map[*wearing]expr.Run // the levels shown: at the start, then after each driven leg
}

// levelsOn begins such a sheet: its title, whether inputs have changed, and what
// was found on its parts.
func levelsOn(name, note string, widths []float64, v view, all worn) levels {
	s := &sheet{name: name, wide: true, side: 1, widths: widths}
	s.title(name, note)
	warn(s)
	v.seen(s)
	return levels{s, v, all, map[*wearing]expr.Run{}}
}

// axle keeps the points of the front or of the rear.
func axle(points []plan.Point, letter string) []plan.Point {
	return slices.DeleteFunc(slices.Clone(points), func(p plan.Point) bool { return !strings.HasSuffix(p.Place, letter) })
}

// measured adds what a measure's row in the table of measures says: its table
// and its chart.
func (s levels) measured(m kind.Measure) {
	points, k := s.v.points(m), measureOf(m)
	s.table(k.table, points)
	if k.note != "" {
		s.span(look{weight: quiet}, k.note)
	}
	if k.chart != "" {
		s.byLeg(k.chart, k.alt, points, "MIN")
	}
}

// table appends what points have left at the start and after every driven leg,
// their limits and margins, and their chances.
func (s levels) table(heading string, points []plan.Point) {
	if len(points) == 0 {
		return
	}
	m := measureOf(points[0].Measure)
	u, rows := m.unit(s.v.u), make([]*wearing, len(points))
	s.keepRows(len(s.v.driven) + 10)
	s.section(heading + ", " + u.name)
	for i, p := range points {
		rows[i] = s.all.find(p)
	}
	s.pairHeads("After", points, right("left"), center("5 – 95 %"))

	first := s.next()
	s.level("start", u, rows, 0)
	for k, j := range s.v.driven {
		s.level(s.v.legName(j), u, rows, k+1)
	}
	last := s.next() - 1
	foot := func(name string, l look, of func(w *wearing) cell) int {
		l.weight = quiet
		cells := []cell{text(l, name)}
		for _, w := range rows {
			cells = append(cells, of(w), blank(l))
		}
		return s.add(cells...)
	}
	total := look{total: true}
	limit := foot("limit", total, func(w *wearing) cell { return live(total, u.format, w.limit) })
	margin := foot("margin", look{}, func(w *wearing) cell { return live(look{}, u.format, w.margin) })
	chances := foot("chance to cross the limit", look{}, func(w *wearing) cell { return live(look{weight: strong}, asChance, w.last().pLimit) })
	foot("the same by the draws, as planned", look{}, func(w *wearing) cell {
		return asPlanned(s.v.u.chance.in(look{weight: quiet}, w.p.After[s.v.last()].PLimit))
	})
	foot("chance to pass the margin", look{}, func(w *wearing) cell { return live(look{}, asChance, w.last().pPast) })
	at := func(col, row int) expr.Ref { return s.at(col, row, 0) }
	if m.Heats && last > first {
		s.heated(at(2, first+1), at(len(s.widths), last))
		s.heated(at(2, chances), at(len(s.widths), chances+2))
	}
	for i := range points {
		col := 2 + 2*i
		s.marked(at(col, first), at(col, last), at(col, limit), at(col, margin))
	}
}

// level is a row of what points have left after so many driven legs.
func (s levels) level(name string, u unit, rows []*wearing, k int) {
	n, cells := s.next(), []cell{text(look{}, name)}
	for i, w := range rows {
		st := w.steps[k]
		c, band := live(look{}, u.format, expr.F("MAX(0,a)", st.left)), blank(look{})
		if k > 0 {
			band = u.between(look{weight: quiet}, st.lo, st.hi)
		}
		cells = append(cells, c, band)
		s.shown[w] = append(s.shown[w], s.at(2+2*i, n, c.exact.Num))
	}
	s.add(cells...)
}

// marks say what the looks of a level mean.
const marks = "Left is nominal and live; bold in a frame is at or below the margin, white on dark at or below the limit."

// byLeg charts a function of every wheel's points at the start and by leg, with
// the limit.
func (s levels) byLeg(title, alt string, points []plan.Point, function string) {
	if len(points) == 0 {
		return
	}
	u := measureOf(points[0].Measure).unit(s.v.u)
	c := chart{title: title, alt: alt, x: "after leg", y: u.head("left"), format: u.format, labels: s.v.byLeg()}
	if u.percent() {
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
			c.lines = append(c.lines, s.line(place, rows, function))
		}
	}
	for _, p := range points {
		w := s.all.find(p)
		if w.limit.Num() <= 0 || slices.ContainsFunc(c.lines, func(l line) bool { return l.limit && l.values[0].Value().Num == w.limit.Num() }) {
			continue // the axis itself, or drawn already
		}
		name := choose(points[0].Limit != p.Limit, "limit "+p.Place, "limit")
		c.lines = append(c.lines, line{name: name, limit: true, values: slices.Repeat([]expr.X{w.limit}, len(c.labels))})
	}
	s.chart(c)
}

// line is a chart's line for the points of one wheel. Points of a wheel need
// not be neighbors, so that the function takes them one by one.
func (s levels) line(name string, rows []*wearing, function string) line {
	out := line{name: name}
	for k := range len(s.v.driven) + 1 {
		var cells []expr.X
		for _, w := range rows {
			cells = append(cells, s.shown[w][k])
		}
		out.values = append(out.values, expr.Each(function, cells))
	}
	return out
}

// pairHeads are the heads of a table of two columns a point.
func (s *sheet) pairHeads(first string, points []plan.Point, a, b cell) {
	names, below := []cell{left(first)}, []cell{left("")}
	for _, p := range points {
		names, below = append(names, joined(center(spot(p)), 2)...), append(below, a, b)
	}
	s.add(names...)
	s.add(below...)
}

// pairs are the widths of a table of points: its first column, then each
// point's level and band.
func pairs(points int, first, level, band float64) []float64 {
	out := []float64{first}
	for range points {
		out = append(out, level, band)
	}
	return out
}
