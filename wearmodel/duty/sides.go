package duty

import (
	"math"
	"slices"
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

// OneSided is the duty with every corner taken to one side, as its mirror image has
// it: to the left where side is above 0, to the right where it is below.
func (d Duty) OneSided(side float64) Duty {
	d.States = slices.Clone(d.States)
	for i, s := range d.States {
		d.States[i].Ay = math.Copysign(s.Ay, side)
	}
	return d
}
