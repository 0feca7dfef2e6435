package profiles

import (
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/profiles/trace"
)

// Circuit is a place to drive, known by its summary, corner by corner, by a
// recorded track, or by a map.
type Circuit struct {
	ID            string            `key:"-"`
	Name          string            `need:"yes"`
	Length        quantity.Length   `range:"0.2 km to 100 km"` // by summary
	LapTime       quantity.Duration `range:"10 s to 60 min"`   // the owner's typical lap, 0 if unknown
	Pace          string            // by summary: the pace that goes with the lap time, "" if unknown
	LeftShare     quantity.Share    `range:"0 % to 100 %"` // by summary: share of cornering load taken in left turns
	HeavyBrakings int               `range:"0 to 200"`     // by summary, 0 if unknown
	Corners       []Corner          // corner by corner
	Braking       quantity.Share    `range:"50 % to 200 %"` // beside corners: of the braking that a lap of them takes, 0 for all of it
	GPX           string            // a recorded track or a map: a GPX file of the car folder
	CSV           string            // likewise a CSV file
	Track         string            // likewise a file in any format that is read
	Line          string            // which line of a map, by its name or its number

	Trace   *trace.Trace `key:"-"` // the recorded track that the file holds
	Map     *trace.Line  `key:"-"` // or the line of its map
	File    string       `key:"-"` // that file, as messages name it
	Notes   []string     `key:"-"` // what was left out of it, with the file and the line
	Sources Sources      `key:"-"`
}

// BySummary says whether nothing is known of the circuit's corners.
func (c Circuit) BySummary() bool { return len(c.Corners) == 0 && c.Trace == nil && c.Map == nil }

// Corner is a straight, a turn, or a straight and the turn at its end.
type Corner struct {
	Straight quantity.Length `range:"0 m to 20 km"`
	Turn     quantity.Angle  `as:"turn" range:"-720 deg to 720 deg"` // + left; written "90 deg left"
	Radius   quantity.Length `range:"3 m to 20 km"`
}

// At is where a circuit's file says what it is: its lap time, its length or its
// first line.
func (c Circuit) At() Position {
	for _, key := range []string{"lap_time", "corners", "length"} {
		if s, ok := c.Sources[key]; ok && s.Line > 0 {
			return s.Position
		}
	}
	return Position{File: "circuits/" + c.ID + ".yaml", Line: 1, Column: 1}
}
