package duty

import (
	"math"
)

// LeftShare is the share of the cornering load taken in left turns: the
// integral of |ay| dt to the left over that of all turns; 0.5 where there is
// no turning. For laps at the grip limit it is the sum of angle times root of
// radius over the left turns, over the same sum over all, whatever the pace.
func LeftShare(d Duty) float64 {
	left, all := 0.0, 0.0
	for _, s := range d.States {
		load := float64(math.Abs(s.Ay) * s.Seconds)
		all += load
		if s.Ay > 0 {
			left += load
		}
	}
	if all == 0 {
		return 0.5
	}
	return left / all
}
