package duty

import "math"

// outAndIn is how long the out and the in lap of a session take together, in
// hot laps: each at 0.6 of the pace, and a lap time goes with about the root
// of the pace. Engineering choice.
const outAndIn = 2.6

// SessionLaps is the number of hot laps that fit into a session, both in
// seconds, beside an out lap and an in lap; never negative.
func SessionLaps(session, lapTime float64) int {
	if !(lapTime > 0) {
		return 0
	}
	laps := math.Floor(session/lapTime - outAndIn + 1e-9) // a lap that fits to the second fits
	if !(laps > 0) {
		return 0
	}
	return int(math.Min(laps, math.MaxInt32))
}
