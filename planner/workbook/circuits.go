package workbook

import (
	"fmt"
	"math"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/workbook/expr"
)

// calmLoad is the lateral acceleration, m/s2, below which a place on a lap
// counts as straight: a tenth of gravity. Engineering choice.
const calmLoad = 0.1 * 9.80665

// circuits draws the trip's circuits from above, by which side of the car
// each place loads.
func circuits(v view) *sheet {
	s := &sheet{name: "Circuits", wide: true, widths: []float64{24, 24, 24, 24, 24}}
	s.title("Circuits", "Each circuit from above, by the side of the car that it loads: a left turn loads the right-hand wheels. Circuits known by their summary alone have no plan.")
	warn(s)
	for i, c := range v.Circuits {
		if i > 0 {
			s.pageBreak()
		}
		s.chart(fromAbove(v, c))
	}
	return s
}

// fromAbove is the scatter chart of a circuit: a line for the way round, and
// dots for what loads either side.
func fromAbove(v view, from plan.View) chart {
	c := chart{
		title: from.Name + " from above",
		alt:   fmt.Sprintf("Plan of %s: places that load the right-hand wheels and places that load the left-hand wheels.", from.Name),
		x:     v.u.ground.head("ahead of the start"), y: v.u.ground.head("to its left"), format: asWhole, scatter: true,
	}
	right, left, straight, start := line{name: "loads the right side"}, line{name: "loads the left side"}, line{name: "straight"}, line{name: "start, sets off to the right"}
	for i, p := range from.Points {
		x, y := v.u.ground.of(p.X), v.u.ground.of(p.Y)
		c.labels = append(c.labels, "")
		c.across = append(c.across, expr.Num(x))
		value := func(yes bool) expr.X { return expr.Num(choose(yes, y, math.NaN())) }
		right.values = append(right.values, value(p.Load >= calmLoad))
		left.values = append(left.values, value(p.Load <= -calmLoad))
		straight.values = append(straight.values, value(math.Abs(p.Load) < calmLoad))
		start.values = append(start.values, value(i == 0))
	}
	c.lines = []line{straight, right, left, start}
	return c
}
