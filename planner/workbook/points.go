package workbook

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
)

// walk is the order of the wheels as one walks round the car.
var walk = []string{"LF", "RF", "RR", "LR"}

// columns is the order of the wheels in tables.
var columns = []string{"LF", "RF", "LR", "RR"}

// pick lists the points of one measure, over the sets of a kind, in the order
// of the tables.
func (b *book) pick(kind profiles.Kind, m planner.Measure) []planner.Point {
	var out []planner.Point
	for _, s := range b.p.Sets {
		if s.Kind != kind {
			continue
		}
		for _, p := range s.Points {
			if p.Measure == m {
				out = append(out, p)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b planner.Point) int {
		return slices.Index(columns, a.Place) - slices.Index(columns, b.Place)
	})
	return out
}

// axle keeps the points of the front or of the rear.
func axle(points []planner.Point, letter string) []planner.Point {
	return slices.DeleteFunc(slices.Clone(points), func(p planner.Point) bool { return !strings.HasSuffix(p.Place, letter) })
}

// spot names a point: the place, and the zone where a place has several.
func spot(p planner.Point) string {
	if p.Zone == "" || p.Measure == planner.Crack {
		return p.Place
	}
	return p.Place + " " + p.Zone
}

// levels appends a table of points: what each has left at the start and after
// every driven leg, its limit and margin, and its chances.
func (b *book) levels(s *sheet, heading string, points []planner.Point) {
	if len(points) == 0 {
		return
	}
	u := b.u.level(points[0].Measure)
	s.keepRows(len(b.driven) + 10)
	s.section(heading + ", " + u.name)
	names, below := []cell{left("After")}, []cell{left("")}
	for _, p := range points {
		names = append(names, joined(center(spot(p)), 2)...)
		below = append(below, right("left"), center("5 – 95 %"))
	}
	s.add(names...)
	s.add(below...)

	first := s.next()
	for j := -1; j < len(b.p.Legs); j++ {
		w, _, ok := b.after(points[0], j)
		if w == nil || !ok {
			continue
		}
		s.add(b.level(s, u, points, j)...)
	}
	last := s.next() - 1
	foot := func(name string, l look, of func(*wearing) cell) int {
		l.weight = quiet
		cells := []cell{text(l, name)}
		for _, p := range points {
			cells = append(cells, of(b.find(p)), blank(l))
		}
		return s.add(cells...)
	}
	total := look{total: true}
	limit := foot("limit", total, func(w *wearing) cell { return live(total, u.format, w.limit.in(s), w.limit.v) })
	margin := foot("margin", look{}, func(w *wearing) cell { return live(look{}, u.format, w.margin.in(s), w.margin.v) })
	chances := foot("chance to cross the limit", look{}, func(w *wearing) cell {
		return live(look{weight: strong}, asChance, w.last().pLimit.in(s), w.last().pLimit.v)
	})
	foot("the same by the draws, as planned", look{}, func(w *wearing) cell {
		return asPlanned(b.u.chance.in(look{weight: quiet}, w.p.After[len(b.p.Legs)-1].PLimit))
	})
	foot("chance to pass the margin", look{}, func(w *wearing) cell {
		return live(look{}, asChance, w.last().pPast.in(s), w.last().pPast.v)
	})
	if heats(points[0].Measure) && last > first {
		s.heated(s.at(2, first+1, 0), s.at(len(s.widths), last, 0))
		s.heated(s.at(2, chances, 0), s.at(len(s.widths), chances+2, 0))
	}
	for i := range points {
		col := 2 + 2*i
		s.judge(s.at(col, first, 0), s.at(col, last, 0), downward(s.at(col, limit, 0).in(s)), downward(s.at(col, margin, 0).in(s)))
	}
}

// downward frees the column of a cell's name and keeps its row.
func downward(name string) string { return strings.Replace(name, "$", "", 1) }

// level is a row of what points have left after leg j, -1 the start.
func (b *book) level(s *sheet, u unit, points []planner.Point, j int) []cell {
	name := "start"
	if j >= 0 {
		name = b.legName(j)
	}
	cells := []cell{text(look{}, name)}
	for i, p := range points {
		w, st, _ := b.after(p, j)
		left := max(0, st.left.v)
		cells = append(cells, live(look{}, u.format, fmt.Sprintf("MAX(0,%s)", st.left.in(s)), left))
		b.shown[w] = append(b.shown[w], s.at(2+2*i, s.next(), left))
		if j < 0 {
			cells = append(cells, blank(look{}))
			continue
		}
		cells = append(cells, u.around(look{weight: quiet}, s, st.lo, st.hi))
	}
	return cells
}

// marks say what the looks of a level mean.
const marks = "Left is nominal and live; bold in a frame is at or below the margin, white on dark at or below the limit."

// overPoints is a chart's line for one wheel: a function of its points at the start
// and after every driven leg.
func (b *book) overPoints(s *sheet, points []planner.Point, place, function string, of func([]float64) float64) (line, bool) {
	out := line{name: place}
	for k := range len(b.driven) + 1 {
		var cells []string
		var values []float64
		for _, p := range points {
			if w := b.find(p); p.Place == place && k < len(b.shown[w]) {
				cells, values = append(cells, b.shown[w][k].in(s)), append(values, b.shown[w][k].v)
			}
		}
		if len(values) == 0 {
			return out, false
		}
		out.values = append(out.values, of(values))
		out.formulas = append(out.formulas, function+"("+strings.Join(cells, ",")+")")
	}
	return out, true
}

func mean(values []float64) float64 { return sum(values) / float64(len(values)) }

// remaining charts the least level of every wheel by leg, with the limit.
func (b *book) remaining(s *sheet, title, alt string, points []planner.Point) {
	b.byLeg(s, title, alt, points, "MIN", func(v []float64) float64 { return slices.Min(v) })
}

// byLeg charts a function of every wheel's points by leg, with the limit.
func (b *book) byLeg(s *sheet, title, alt string, points []planner.Point, function string, of func([]float64) float64) {
	if len(points) == 0 {
		return
	}
	u := b.u.level(points[0].Measure)
	c := chart{title: title, alt: alt, x: "after leg", y: u.head("left"), format: u.format, labels: []string{"start"}}
	if u.format == asShare {
		c.y, c.top = "share of life left", 1
	}
	for _, j := range b.driven {
		c.labels = append(c.labels, b.legLabel(j))
	}
	for _, place := range columns {
		if l, ok := b.overPoints(s, points, place, function, of); ok {
			c.lines = append(c.lines, l)
		}
	}
	for _, p := range points {
		w := b.find(p)
		name := "limit"
		if w.limit.v <= 0 || slices.ContainsFunc(c.lines, func(l line) bool { return l.limit && l.values[0] == w.limit.v }) {
			continue // the axis itself, or drawn already
		}
		if points[0].Limit != p.Limit {
			name = "limit " + p.Place
		}
		c.lines = append(c.lines, line{
			name: name, limit: true,
			values: slices.Repeat([]float64{w.limit.v}, len(c.labels)), formulas: slices.Repeat([]string{w.limit.in(s)}, len(c.labels)),
		})
	}
	s.chart(c)
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// pairs are the widths of a table of points: its first column, then each
// point's level and band.
func pairs(points int, first, level, band float64) []float64 {
	out := []float64{first}
	for range points {
		out = append(out, level, band)
	}
	return out
}
