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
	c.lines = []line{{name: "straight"}, {name: "loads the right side"}, {name: "loads the left side"}, {name: "start, sets off to the right"}}
	for i, p := range from.Points {
		c.labels, c.across = append(c.labels, ""), append(c.across, expr.Num(v.u.ground.of(p.X)))
		for k, shown := range []bool{math.Abs(p.Load) < calmLoad, p.Load >= calmLoad, p.Load <= -calmLoad, i == 0} {
			c.lines[k].values = append(c.lines[k].values, expr.Num(choose(shown, v.u.ground.of(p.Y), math.NaN())))
		}
	}
	return c
}
