package workbook

import (
	"fmt"
	"math"
	"slices"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/workbook/expr"
)

// calmLoad is the lateral acceleration, m/s2, below which a place on a lap
// counts as straight: a tenth of gravity. Engineering choice.
const calmLoad = 0.1 * 9.80665

// circuits draws the trip's circuits from above below its legs, two abreast, by
// which side of the car each place loads.
func (v view) circuits(s *sheet) {
	for two := range slices.Chunk(v.Circuits, 2) {
		var charts []chart
		for _, c := range two {
			charts = append(charts, fromAbove(v, c))
		}
		s.chart(charts...)
	}
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
