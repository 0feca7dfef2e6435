package profiles

import (
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/profiles/trace"
)

// Circuit is a place to drive, known by its summary, corner by corner, or by a
// recorded track.
type Circuit struct {
	ID            string            `key:"-"`
	Name          string            `need:"yes"`
	Length        quantity.Length   `range:"0.2 km to 100 km"` // by summary
	LapTime       quantity.Duration `range:"10 s to 60 min"`   // the owner's typical lap, 0 if unknown
	LeftShare     quantity.Share    `range:"0 % to 100 %"`     // by summary: share of cornering load taken in left turns
	HeavyBrakings int               `range:"0 to 200"`         // by summary, 0 if unknown
	Corners       []Corner          // corner by corner
	GPX           string            // a recorded track: a GPX file of the car folder
	CSV           string            // a recorded track: a CSV file of the car folder
	Track         string            // a recorded track: a file of the car folder in any format that is read

	Trace   *trace.Trace `key:"-"` // what the recorded track holds
	Notes   []string     `key:"-"` // what was left out of it, with the file and the line
	Sources Sources      `key:"-"`
}

// BySummary says whether nothing is known of the circuit's corners.
func (c Circuit) BySummary() bool { return len(c.Corners) == 0 && c.Trace == nil }

// Corner is a straight, a turn, or a straight and the turn at its end.
type Corner struct {
	Straight quantity.Length `range:"0 m to 20 km"`
	Turn     quantity.Angle  `as:"turn" range:"-720 deg to 720 deg"` // + left; written "90 deg left"
	Radius   quantity.Length `range:"3 m to 20 km"`
}
