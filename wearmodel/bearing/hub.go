package bearing

import (
	"math"

	"example.com/tripwear/wearmodel/duty"
)

// jointSlope is the Weibull slope by which the two rows' lives join into the
// unit's, the same as that of survival. ISO 281.
const jointSlope = 1.5

// Hub is a hub bearing unit. Every field but Offset must be positive.
//
// Usual values: Offset 5 mm and Spread 60 mm, assumed; Capacity 60 kN, from
// memory; LoadFactor 1.2, engineering choice; Severity 0.10, the floor of ISO
// 281's factor for severe contamination taken for track use, engineering
// choice; RoadLife 100,000 mi, within the 80,000-118,000 mi of a bearing
// maker's bulletin.
type Hub struct {
	Offset     float64 // m, of the wheel's center plane from the middle of the rows
	Spread     float64 // m, between the rows' load centers
	Capacity   float64 // N, dynamic, of the two-row unit
	LoadFactor float64 // multiplies the wheel's load
	Severity   float64 // share of the ISO life that track use leaves, 0-1
	RoadLife   float64 // m of ordinary road that use up one L10
}

// Circuit is the share of its L10 that each hub uses up on one lap. Radius is
// each wheel's rolling radius, m.
func Circuit(v duty.Vehicle, hub [4]Hub, radius [4]float64, d duty.Duty) [4]float64 {
	var outer, inner, row, perMetre [4]float64
	for p, h := range hub {
		row[p] = rowCapacity(h.Capacity)
		perMetre[p] = 1 / (2 * math.Pi * radius[p]) / 1e6
	}
	for _, s := range d.States {
		wheels := v.Loads(s)
		for _, p := range duty.Places {
			inward := wheels[p].Fy
			if p.Left() {
				inward = -inward
			}
			turns := s.V * s.Seconds * perMetre[p]
			po, pi := hub[p].Rows(wheels[p].Fz, inward, radius[p])
			outer[p] += turns / L10(row[p], po)
			inner[p] += turns / L10(row[p], pi)
		}
	}
	var out [4]float64
	for p, h := range hub {
		out[p] = join(outer[p], inner[p]) / h.Severity
	}
	return out
}

// Road is the share of its L10 that a hub uses up on meters of road.
func Road(h Hub, meters float64) float64 { return meters / h.RoadLife }

// join is the unit's damage from that of its two rows.
func join(outer, inner float64) float64 {
	return math.Pow(math.Pow(outer, jointSlope)+math.Pow(inner, jointSlope), 1/jointSlope)
}
