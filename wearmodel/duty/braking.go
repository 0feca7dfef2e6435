package duty

import (
	"math"
	"slices"
)

// What counts as one heavy use of the brakes. Engineering choice.
const (
	heavyDecel = 0.3 * G // m/s2
	releaseGap = 0.3     // s, shorter releases belong to the same braking
	heavyDrop  = 5.0     // m/s, smaller losses of speed heat nothing
	fullDrop   = 7.0     // m/s, larger ones count in full; between, by how far they are, so that no one more jumps in
)

// brakings finds the heavy uses of the brakes on a lap of chronological states.
func brakings(states []State) []Braking {
	if len(states) == 0 {
		return nil
	}
	// Begin where the car is fastest: no braking runs across that place, while
	// one may run across the start of the lap.
	begin, fastest := 0, 0.0
	before := 0.0 // s, of the states ahead of begin
	lap := 0.0
	for i, s := range states {
		if entry := s.V - float64(s.Ax*s.Seconds/2); entry > fastest {
			begin, fastest, before = i, entry, lap
		}
		lap += s.Seconds
	}

	var found []Braking
	var b Braking
	open := false
	end := 0.0 // time at which the open braking last held
	finish := func() {
		if open && b.From-b.To >= heavyDrop {
			b.Decel = (b.From - b.To) / (end - b.Start)
			b.Factor = math.Min(1, (b.From-b.To-heavyDrop)/(fullDrop-heavyDrop))
			if b.Start >= lap {
				b.Start -= lap
			}
			found = append(found, b)
		}
		open = false
	}
	now := before
	for j := range states {
		i := begin + j
		if i >= len(states) {
			i -= len(states)
		}
		s := states[i]
		if s.Ax < -heavyDecel {
			if open && now-end >= releaseGap {
				finish()
			}
			half := float64(s.Ax * s.Seconds / 2)
			if !open {
				open = true
				b = Braking{From: s.V - half, Start: now}
			}
			b.To = s.V + half
			end = now + s.Seconds
		}
		now += s.Seconds
	}
	finish()
	slices.SortFunc(found, func(a, b Braking) int {
		if a.Start < b.Start {
			return -1
		}
		return 1
	})
	return found
}
