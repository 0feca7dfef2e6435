package decision

import (
	"math"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
)

// wearing is a set of points that lose a little on every leg of a season.
func wearing(id string, points int, legs []trip.Usage) *projection.Set {
	s := &projection.Set{Set: plan.Set{ID: id, Critical: true}, RoadSD: 0.25, CircuitSD: 0.4, SummarySD: 0.3}
	for i := range points {
		p := projection.Level{Point: plan.Point{New: 8e-3, Start: 6e-3, Limit: 1.6e-3, Margin: 2.4e-3}, From: 6e-3, StartSD: 2e-4}
		for j := range legs {
			loss := trip.Loss{2e-4, 2e-4, 2e-4}
			if legs[j].Circuit {
				loss[0], loss[1], loss[2] = 4e-4*math.Exp(-0.2), 4e-4*(1+float64(i)/20), 4e-4*math.Exp(0.25)
			}
			p.LegLoss = append(p.LegLoss, loss)
		}
		s.Levels = append(s.Levels, p)
	}
	return s.AddReplacement()
}
