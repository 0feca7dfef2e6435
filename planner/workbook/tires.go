package workbook

import (
	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
)

// tires shows the tread of every wheel and zone leg by leg.
func (b *book) tires() *sheet {
	s := &sheet{name: "Tires", wide: true, side: 1, widths: pairs(6, 30, 7.5, 11)}
	s.title("Tires", "Tread depth as the car stands, nothing renewed on the way. "+marks)
	b.warn(s)
	b.seen(s, profiles.Tire)
	points := b.pick(profiles.Tire, planner.Tread)
	b.levels(s, "Front tires: tread depth", axle(points, "F"))
	b.levels(s, "Rear tires: tread depth", axle(points, "R"))
	b.probes(s)
	b.remaining(s, "Tread left in the shallowest zone of each wheel (nominal)",
		"Line chart of the nominal tread depth in the shallowest zone of each wheel, at the start and after each leg, with the limit.", points)
	b.byLeg(s, "Tread left on each wheel, mean of its zones (nominal)",
		"Line chart of the nominal tread depth of each wheel, mean of its zones, at the start and after each leg, with the limit.", points, "AVERAGE", mean)
	return s
}
