package plan

import "example.com/tripwear/planner/kind"

// Course is the way of one measured point through the trip as decided: with what
// is replaced, and with a spare from where it goes on. Levels stand before each
// leg, the last back home; where a new part goes on they are of that one.
type Course struct {
	Set     string       `json:"set"`
	Place   string       `json:"place"`
	Zone    string       `json:"zone"`
	Measure kind.Measure `json:"measure"`
	Act     float64      `json:"act"`
	Stop    float64      `json:"stop"`
	Level   []float64    `json:"level"` // nominal, as the checks expect it
	Low     []float64    `json:"low"`   // nine cases in ten lie between
	High    []float64    `json:"high"`
	New     int          `json:"new"` // the leg before which a new part is on; -1 where none goes on
	Old     float64      `json:"old"` // what the part that comes off has then
}
