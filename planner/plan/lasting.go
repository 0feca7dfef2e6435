package plan

import (
	"example.com/tripwear/profiles"
)

// What a yes takes. Engineering choices.
const (
	LastsChance = 0.90 // least chance to come home within the limit
	MostDays    = 14   // circuit days that are looked ahead
)

// Lasting says how many circuit days the car lasts as it stands, with the
// drive there and home. Measures are SI, shares 0-1.
type Lasting struct {
	Car         string       `json:"car"`
	Circuit     string       `json:"circuit"`
	Days        int          `json:"days"`     // asked
	Sessions    int          `json:"sessions"` // a day
	SessionTime float64      `json:"session_time"`
	Laps        float64      `json:"laps"` // hot, a day
	LapTime     float64      `json:"lap_time"`
	Pace        float64      `json:"pace"` // share of grip
	BySummary   bool         `json:"by_summary"`
	Road        float64      `json:"road"`   // m, there and home
	Counts      []int        `json:"counts"` // days that Chance is for: 1, 2, 3 and those asked
	Cap         float64      `json:"cap"`    // most chance of driving across a limit unnoticed
	Least       float64      `json:"least"`  // least chance to last: LastsChance
	Sets        []SetLasting `json:"sets"`
	Lasts       bool         `json:"lasts"` // the verdict is Yes: every set asked about lasts the days asked
	Rest        string       `json:"rest"`  // the trip under way from its next leg on, for Rest of the sets; "" where there is none
	Verdict     string       `json:"verdict"`
	Why         string       `json:"why"`      // one sentence without its full stop
	Readings    []Deciding   `json:"readings"` // what to read before the answer can be given
}

// SetLasting is the answer for one set.
type SetLasting struct {
	ID       string        `json:"id"`
	Name     string        `json:"name"`
	Kind     profiles.Kind `json:"kind"`
	Read     bool          `json:"read"` // a gauge, an eye or a hand has told of this part
	Stop     []string      `json:"stop"` // what forbids driving on it as it is
	Measured string        `json:"measured"`
	Readings []string      `json:"readings"` // of the logbook, where it was asked about
	Place    string        `json:"place"`    // where its life ends first, with the tread zone
	Chance   []float64     `json:"chance"`
	Rest     *float64      `json:"rest"`   // chance to come home from the trip under way; nil where there is none
	Unsafe   float64       `json:"unsafe"` // chance of driving across the limit unnoticed, over the days asked
	Median   float64       `json:"median"` // circuit days until the limit, MostDays where they are more
	Sure     float64       `json:"sure"`   // circuit days that 90 % of the draws last
	Lasts    bool          `json:"lasts"`  // the days asked
	Advice   string        `json:"advice"` // one sentence without its full stop, with its numbers
}
