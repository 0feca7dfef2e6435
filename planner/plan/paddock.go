package plan

import (
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
)

// MostSessions is how many sessions are looked ahead.
const MostSessions = 14

// Paddock is whether the sessions left of a circuit day are on, by every set as
// the car stands, nothing replaced.
type Paddock struct {
	Car      string       `json:"car"`
	Trip     string       `json:"trip"`
	Name     string       `json:"name"` // of the circuit day
	Day      time.Time    `json:"day"`  // zero where the trip has no date
	Here     bool         `json:"here"` // the car is there: no road lies before it
	Odometer float64      `json:"odometer"`
	Done     int          `json:"done"` // sessions of the day, driven
	Left     int          `json:"left"`
	Verdict  string       `json:"verdict"`
	Why      string       `json:"why"` // one sentence without its full stop
	On       bool         `json:"on"`
	Least    float64      `json:"least"`
	Cap      float64      `json:"cap"`
	Sets     []PaddockSet `json:"sets"`    // what is likeliest to end first comes first
	Jobs     []Job        `json:"jobs"`    // what the plan has done after it
	Session  string       `json:"session"` // the verdict on the next session alone
	Sure     string       `json:"sure"`    // and why
	Next     *NextDay     `json:"next"`    // the circuit day after it; nil where none is left
	Home     string       `json:"home"`    // the verdict of the plan of the rest
	HomeWhy  string       `json:"home_why"`
}

// NextDay is whether the next circuit day is on, by the plan of the rest.
type NextDay struct {
	Name    string    `json:"name"`
	Day     time.Time `json:"day"` // zero where the trip has no date
	Verdict string    `json:"verdict"`
	Why     string    `json:"why"`   // where it is no yes
	Fit     []string  `json:"fit"`   // names of the sets whose spare goes on first
	Turns   *Turning  `json:"turns"` // the reading likeliest to turn it; nil where none would
}

// PaddockSet is the answer for one set. Levels are as its measure counts.
type PaddockSet struct {
	ID       string        `json:"id"`
	Name     string        `json:"name"`
	Kind     profiles.Kind `json:"kind"`
	Where    string        `json:"where"`
	Sessions int           `json:"sessions"` // that nine cases in ten last, MostSessions where they are more
	Chance   float64       `json:"chance"`   // to last those left
	Unsafe   float64       `json:"unsafe"`   // chance to be driven past its limit in them unnoticed
	Measure  kind.Measure  `json:"measure"`
	Read     *float64      `json:"read"`    // what was last read at its weakest point; nil where it was not
	Found    string        `json:"found"`   // what was last found on it; "" where nothing was
	ReadOn   time.Time     `json:"read_on"` // the day of either
	Act      float64       `json:"act"`
	Expect   float64       `json:"expect"` // once the day is done
	Next     bool          `json:"next"`   // it makes the next session
	Stop     []string      `json:"stop"`   // what forbids driving on it as it is
	On       bool          `json:"on"`
}

// Job is what is done after a circuit day.
type Job struct {
	When string `json:"when"` // tonight, or a stop and its day
	What string `json:"what"`
}
