package workbook

import (
	"example.com/tripwear/planner/kind"
)

// tires shows the tread of every wheel and zone leg by leg.
func tires(v view, all worn) *sheet {
	s := levelsOn(tiresName, "Tread depth as the car stands, nothing replaced on the way. "+marks, pairs(6, 30, 7.5, 11), v, all)
	points := v.points(kind.Tread)
	s.table("Front tires: tread depth", axle(points, "F"))
	s.table("Rear tires: tread depth", axle(points, "R"))
	v.probes(s.sheet)
	tread := measureOf(kind.Tread)
	s.byLeg(tread.chart, tread.alt, points, "MIN")
	s.byLeg("Tread left on each wheel, mean of its zones (nominal)",
		"Line chart of the nominal tread depth of each wheel, mean of its zones, at the start and after each leg, with the limit.", points, "AVERAGE")
	return s.sheet
}
