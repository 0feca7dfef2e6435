package duty

import (
	"math"
)

// slowLap is how long an out lap, an in lap or a lap to cool down takes, in hot
// laps: it is driven at 0.6 of the pace, and a lap time goes with about the
// root of the pace. Engineering choice.
const slowLap = 1.3

// SessionLaps is the number of hot laps that fit into a session, both in
// seconds, beside an out lap and an in lap; never negative.
func SessionLaps(session, lapTime float64) int { return HotLaps(session, lapTime, 2) }

// HotLaps is the number of hot laps that fit into a session, both in seconds,
// beside a number of slow ones; never negative.
func HotLaps(session, lapTime float64, slow int) int {
	if !(lapTime > 0) {
		return 0
	}
	laps := math.Floor(float64(session/lapTime) - float64(slowLap*float64(slow)) + 1e-9) // a lap that fits to the second fits
	if !(laps > 0) {
		return 0
	}
	return int(math.Min(laps, math.MaxInt32))
}
