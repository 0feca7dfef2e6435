package workbook

import (
	"math"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner/workbook/expr"
)

// plans are the marks of a plan: straight, loads the right side, loads the
// left side, start. Shape and size tell them apart in black and white.
var plans = []struct {
	color, marker string
	size          int
}{{hairline, "dash", 5}, {"B35900", "circle", 8}, {"1B4F72", "triangle", 7}, {ink, "diamond", 12}}

// plan makes a chart a scatter chart with the same scale both ways.
func (c chart) plan(out *excelize.Chart) {
	out.Type = excelize.Scatter
	out.Legend.Position = "bottom"
	const aside, above = 250, 130 // pixels that the titles, the labels and the legend take
	x, y, step := c.square(float64(out.Dimension.Width)-aside, float64(out.Dimension.Height)-above)
	out.XAxis.Minimum, out.XAxis.Maximum, out.XAxis.MajorUnit = &x[0], &x[1], step
	out.YAxis.Minimum, out.YAxis.Maximum, out.YAxis.MajorUnit = &y[0], &y[1], step
	out.XAxis.NumFmt = out.YAxis.NumFmt
	out.XAxis.TickLabelPosition, out.YAxis.TickLabelPosition = excelize.ChartTickLabelLow, excelize.ChartTickLabelLow
	out.XAxis.MajorGridLines = true
}

// bounds are the least and the most of an axis's values.
func bounds(values []expr.X) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, x := range values {
		if v := x.Value().Num; finite(v) {
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
