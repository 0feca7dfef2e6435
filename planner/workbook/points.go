package workbook

import (
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
	s.keep(float64(len(b.driven)+9) * (lineHeight + linePad))
	s.section(heading + ", " + u.name)
	names, below := []cell{left("After")}, []cell{left("")}
	for _, p := range points {
		names = append(names, joined(center(spot(p)), 2)...)
		below = append(below, right("median"), center("5 – 95 %"))
	}
	s.add(names...)
	s.add(below...)

	cells := []cell{text(look{}, "start")}
	for _, p := range points {
		cells = append(cells, u.marked(p, p.Start), blank(look{}))
	}
	s.add(cells...)
	for _, j := range b.driven {
		cells := []cell{text(look{}, b.legName(j))}
		for _, p := range points {
			cells = append(cells, u.marked(p, p.After[j].P50), text(look{weight: quiet, across: "center"}, band(u, p.After[j])))
		}
		s.add(cells...)
	}
	last := len(b.p.Legs) - 1
	foot := func(name string, l look, of func(planner.Point) cell) {
		l.weight = quiet
		cells := []cell{text(l, name)}
		for _, p := range points {
			cells = append(cells, of(p), blank(l))
		}
		s.add(cells...)
	}
	foot("limit", look{total: true}, func(p planner.Point) cell { return u.in(look{total: true}, p.Limit) })
	foot("margin", look{}, func(p planner.Point) cell { return u.in(look{}, p.Margin) })
	foot("chance to cross the limit", look{}, func(p planner.Point) cell {
		return b.u.chance.in(look{weight: strong}, p.After[last].PLimit)
	})
	foot("chance to pass the margin", look{}, func(p planner.Point) cell {
		return b.u.chance.in(look{}, p.After[last].PMargin)
	})
}

// marks say what the signs behind a level mean.
const marks = "! is at or below the margin, !! at or below the limit."

// marked is a level with a sign where it is at its margin or limit.
func (u unit) marked(p planner.Point, v float64) cell {
	switch {
	case v <= p.Limit:
		u.format += `" !!"`
		return u.in(look{weight: strong}, v)
	case v <= p.Margin:
		u.format += `" !"`
		return u.in(look{weight: strong}, v)
	}
	return u.in(look{}, v)
}

// worst is a chart's line for one wheel: the least of its points at the start
// and after every driven leg.
func (b *book) worst(points []planner.Point, place string) (line, bool) {
	out := line{name: place}
	for _, p := range points {
		if p.Place != place {
			continue
		}
		u := b.u.level(p.Measure)
		values := []float64{u.of(p.Start)}
		for _, j := range b.driven {
			values = append(values, u.of(p.After[j].P50))
		}
		if out.values == nil {
			out.values = values
			continue
		}
		for i, v := range values {
			out.values[i] = math.Min(out.values[i], v)
		}
	}
	return out, out.values != nil
}

// remaining charts the least level of every wheel by leg, with the limit.
func (b *book) remaining(s *sheet, title, alt string, points []planner.Point) {
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
		if l, ok := b.worst(points, place); ok {
			c.lines = append(c.lines, l)
		}
	}
	for _, p := range points {
		name := "limit"
		if p.Limit <= 0 || slices.ContainsFunc(c.lines, func(l line) bool { return l.limit && l.values[0] == u.of(p.Limit) }) {
			continue // the axis itself, or drawn already
		}
		if points[0].Limit != p.Limit {
			name = "limit " + p.Place
		}
		c.lines = append(c.lines, line{name: name, limit: true, values: slices.Repeat([]float64{u.of(p.Limit)}, len(c.labels))})
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
