package duty

import (
	"math"
)

// slowLap is how long an out lap, an in lap or a lap to cool down takes, in hot
// laps: it is driven at 0.6 of the pace, and a lap time goes with about the
// root of the pace. Engineering choice.
const slowLap = 1.3

// SessionLaps is how many hot laps fit into a session, both in seconds, beside
// an out lap and an in lap; never negative.
func SessionLaps(session, lapTime float64) float64 { return HotLaps(session, lapTime, 2) }

// HotLaps is how many hot laps fit into a session, both in seconds, beside a
// number of slow ones; never negative. The fraction counts: with whole laps a
// car a second slower would wear its pads a fifth less.
func HotLaps(session, lapTime float64, slow int) float64 {
	const most = math.MaxInt32
	if laps := float64(session/lapTime) - float64(slowLap*float64(slow)); lapTime > 0 && laps > 0 {
		return math.Min(laps, most)
	}
	return 0
}
