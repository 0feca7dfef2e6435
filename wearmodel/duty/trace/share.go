package trace

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// shareFloor is what is left of the left share's error when noise has none:
// the way a driver takes a corner differs from the model's. Engineering choice.
const shareFloor = 0.003

// shareInflation makes up for what the fit takes as known: how many arcs
// there are, and that the fixes err apart from one another. Engineering choice.
const shareInflation = 1.5

// leftShare is the share of the cornering load taken in left turns at the
// measured speeds, with one standard deviation.
//
// Load over a stretch is the integral of |ay| dt, which is speed times the
// angle turned; at the limit of grip the speed goes with the root of the
// radius. The deviation is that of bends and lengths of the arcs, by the
// gradient of the share.
func leftShare(all []stretch, q *ties) (share, sd float64) {
	left, whole := 0.0, 0.0
	for _, s := range all {
		load := s.speed * s.turn
		whole += math.Abs(load)
		left += math.Max(0, load)
	}
	if whole == 0 {
		return 0.5, 0.5
	}
	share = left / whole
	spread := q.spread()
	if spread == nil {
		return share, 0.5
	}
	gradient := mat.NewVecDense(len(q.pull), nil)
	for j, s := range all {
		b := q.bend[j]
		if b < 0 {
			continue
		}
		by := -share
		if s.turn > 0 {
			by++
		}
		by *= math.Abs(s.speed*s.turn) / whole
		gradient.SetVec(b, by/s.curvature()/2)
		gradient.SetVec(q.length[j], by/s.meters)
	}
	variance := math.Max(0, mat.Inner(gradient, spread, gradient))
	return share, math.Min(0.5, math.Sqrt(float64(shareInflation*shareInflation*variance)+float64(shareFloor*shareFloor)))
}
