package workbook

import (
	"fmt"
	"math"

	"example.com/tripwear/planner"
)

// calmLoad is the lateral acceleration, m/s2, below which a place on a lap
// counts as straight: a tenth of gravity. Engineering choice.
const calmLoad = 0.1 * 9.80665

// circuits draws the trip's circuits from above, by which side of the car
// each place loads.
func (b *book) circuits() *sheet {
	s := &sheet{name: "Circuits", wide: true, widths: []float64{24, 24, 24, 24, 24}}
	s.title("Circuits", "Each circuit from above, by the side of the car that it loads: a left turn loads the right-hand wheels. Circuits known by their summary alone have no plan.")
	b.warn(s)
	for i, v := range b.p.Circuits {
		if i > 0 {
			s.pageBreak()
		}
		s.chart(b.fromAbove(v))
	}
	return s
}

// fromAbove is the scatter chart of a circuit: a line for the way round, and
// dots for what loads either side.
func (b *book) fromAbove(v planner.View) chart {
	metric := b.u.distance.name == "km"
	unit, of := "m", func(m float64) float64 { return m }
	if !metric {
		unit, of = "ft", func(m float64) float64 { return m / 0.3048 }
	}
	c := chart{
		title: v.Name + " from above",
		alt:   fmt.Sprintf("Plan of %s: places that load the right-hand wheels and places that load the left-hand wheels.", v.Name),
		x:     "ahead of the start, " + unit, y: "to its left, " + unit, format: asWhole, scatter: true,
	}
	right, left, straight, start := line{name: "loads the right side"}, line{name: "loads the left side"}, line{name: "straight"}, line{name: "start, sets off to the right"}
	for i, p := range v.Points {
		x, y := of(p.X), of(p.Y)
		c.labels = append(c.labels, "")
		c.across = append(c.across, x)
		gap := math.NaN()
		value := func(yes bool) float64 { return choose(yes, y, gap) }
		right.values = append(right.values, value(p.Load >= calmLoad))
		left.values = append(left.values, value(p.Load <= -calmLoad))
		straight.values = append(straight.values, value(math.Abs(p.Load) < calmLoad))
		start.values = append(start.values, value(i == 0))
	}
	c.lines = []line{straight, right, left, start}
	return c
}

// bounds are the least and the most of an axis's values.
func bounds(values []float64) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, v := range values {
		if finite(v) {
			lo, hi = math.Min(lo, v), math.Max(hi, v)
		}
	}
	return lo, hi
}

// square gives both axes of a plan the same scale on a plot so many pixels
// wide and high.
func (c *chart) square(width, height float64) (x, y [2]float64, step float64) {
	x[0], x[1] = bounds(c.across)
	y[0], y[1] = math.Inf(1), math.Inf(-1)
	for _, l := range c.lines {
		if lo, hi := bounds(l.values); lo <= hi {
			y[0], y[1] = math.Min(y[0], lo), math.Max(y[1], hi)
		}
	}
	scale := math.Max((x[1]-x[0])/width, (y[1]-y[0])/height) * 1.3 // of a pixel, with room for the first round figure
	if !(scale > 0) || math.IsInf(scale, 0) {
		return [2]float64{0, 1}, [2]float64{0, 1}, 1
	}
	step = math.Pow(10, math.Floor(math.Log10(scale*height/3)))
	for _, f := range []float64{5, 2} {
		if step*f <= scale*height/3 {
			step *= f
			break
		}
	}
	around := func(a [2]float64, pixels float64) [2]float64 {
		middle, half := float64((a[0]+a[1])/2), float64(scale*pixels/2)
		from := float64(math.Floor((middle-half)/step) * step)
		return [2]float64{from, from + math.Max(2*half, a[1]-from)}
	}
	return around(x, width), around(y, height), step
}
