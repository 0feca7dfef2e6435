package trace

import "math"

// shareFloor is what is left of the left share's error when noise has none:
// the way a driver takes a corner differs from the model's. Engineering choice.
const shareFloor = 0.003

// shareInflation makes up for what the fit takes as known, where the curvature
// jumps: on invented circuits with 0.3-3 m of noise the error of the share is
// then within two deviations 19 times in 20. Engineering choice.
const shareInflation = 4

// leftShare is the share of the cornering load taken in left turns at the
// measured speeds, with one standard deviation.
//
// Load over a stretch is the integral of |ay| dt, which is speed times the
// angle turned. The deviation follows from the fit: its matrix holds how
// firmly the fixes and the price of jumps hold every node, and the share is
// nearly linear in where the nodes lie.
func (f *fitted) leftShare(all []stretch) (share, sd float64) {
	n := len(f.x)
	turns := make([]float64, n) // rad at each node, 0 where it is straight
	left, whole := 0.0, 0.0
	for _, s := range all {
		if math.Abs(s.lateral()) < straightBelow {
			continue
		}
		for k := range s.nodes {
			i := (s.from + k) % n
			turns[i] = f.turn[i]
			load := f.speed[i] * f.turn[i]
			whole += math.Abs(load)
			left += math.Max(0, load)
		}
	}
	if whole == 0 {
		return 0.5, 0.5
	}
	share = left / whole
	gradient := make([]float64, n)
	for i, turn := range turns {
		if turn == 0 {
			continue
		}
		by := -share * math.Copysign(1, turn)
		if turn > 0 {
			by++
		}
		by *= f.speed[i] / whole / f.length[i]
		gradient[f.before(i)] += by
		gradient[i] -= 2 * by
		gradient[f.next(i)] += by
	}
	answer := append([]float64(nil), gradient...)
	f.system.solve(answer)
	variance := math.Max(0, shareInflation*shareInflation*f.noise*f.noise*dot(gradient, answer))
	return share, math.Min(0.5, math.Sqrt(variance+shareFloor*shareFloor))
}
