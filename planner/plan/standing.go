package plan

import (
	"strings"
	"time"

	"example.com/tripwear/planner/kind"
)

// Standing is where a trip under way stands, by the logbook. The legs of its
// plan are those that are left.
type Standing struct {
	Driven   int        `json:"driven"`   // legs of the whole trip
	Legs     int        `json:"legs"`     // of the whole trip
	Sessions int        `json:"sessions"` // of the circuit day under way: driven
	Of       int        `json:"of"`       // sessions of that day; 0 where none is under way
	Day      time.Time  `json:"day"`
	Place    string     `json:"place"` // the leg that was driven last, or is being driven
	Can      []string   `json:"can"`   // what can be done there, as at a stop
	Evening  bool       `json:"evening"`
	Odometer float64    `json:"odometer"` // m, by the logbook and the miles of the legs driven
	Left     float64    `json:"left"`     // m of road to go
	Days     int        `json:"days"`     // circuit days to go, one under way among them
	Decided  []Decided  `json:"decided"`  // before leaving, and what became of it
	Foretold []Foretold `json:"foretold"` // what was read since, beside what was expected
	Trunk    []Item     `json:"trunk"`    // what was packed, less what went on
}

// Decided is what was decided about a set before leaving.
type Decided struct {
	Set    string    `json:"set"`
	Name   string    `json:"name"`
	Action Action    `json:"action"`
	Stop   string    `json:"stop"` // where it is replaced on the way; "" otherwise
	Done   time.Time `json:"done"` // when the logbook has a new one go on; zero where it has none
	Row    int       `json:"row"`  // of the logbook, that says so; 0 where none does
}

// Foretold is what was last read of a point since departure, beside what the plan
// made before it expected then.
type Foretold struct {
	Set      string       `json:"set"`
	Place    string       `json:"place"`
	Zone     string       `json:"zone"`
	Measure  kind.Measure `json:"measure"`
	Date     time.Time    `json:"date"`
	Row      int          `json:"row"`
	Expected float64      `json:"expected"`
	Low      float64      `json:"low"` // nine cases in ten lie between, the gauge's error in it
	High     float64      `json:"high"`
	Read     float64      `json:"read"`
}

// First is when what is decided to be done first is done.
func (p *Plan) First() string {
	switch {
	case p.Standing == nil:
		return kind.Before
	case p.Standing.Evening:
		return "tonight, here"
	}
	return "here, before going on"
}

// Now puts words that speak of leaving home as they are where the trip stands.
func (p *Plan) Now(words string) string { return strings.ReplaceAll(words, kind.Before, p.First()) }
