package plan

import (
	"fmt"
	"math"

	"example.com/tripwear/profiles/quantity"
)

// Told is what a lap time alone tells of a circuit known by its summary.
type Told struct {
	LapTime float64 `json:"lap_time"`
	Meters  float64 `json:"metres"`
	Pace    float64 `json:"pace"`
	Faster  float64 `json:"faster"` // than usual circuits with so many brakings, at this pace
	Held    bool    `json:"held"`   // the pace at the end of its range
}

// Words says how the lap time is read.
func (t *Told) Words() string {
	circuit := "as fast as usual"
	if percent := math.Round(100 * t.Faster); percent != 0 {
		circuit = fmt.Sprintf("%.0f %% %s than usual", math.Abs(percent), map[bool]string{true: "faster", false: "slower"}[percent > 0])
	}
	out := fmt.Sprintf("a lap of %s is read as a pace of %.0f %% on a circuit %s", quantity.Lap(t.LapTime), 100*t.Pace, circuit)
	if t.Held {
		return fmt.Sprintf("%s: are %s and %.2f km right?", out, quantity.Lap(t.LapTime), t.Meters/1000)
	}
	return out + "; your pace beside it would settle which"
}
