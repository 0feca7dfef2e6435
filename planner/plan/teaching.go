package plan

import (
	"time"

	"example.com/tripwear/profiles"
)

// Prediction is one past reading, predicted from only what was known before
// it. Levels are m.
type Prediction struct {
	Set      string    `json:"set"`
	Place    string    `json:"place"`
	Zone     string    `json:"zone"`
	Date     time.Time `json:"date"`
	Odometer float64   `json:"odometer"`
	Read     float64   `json:"read"`
	Median   float64   `json:"median"`
	Low      float64   `json:"low"`
	High     float64   `json:"high"`     // the 80 % band, the gauge's error in it
	Rank     float64   `json:"rank"`     // share of what was predicted that lies below the reading, 0-1
	Default  float64   `json:"default"`  // what the model says without the logbook's rates
	Line     float64   `json:"line"`     // what a straight line through the readings before says
	HasLine  bool      `json:"has_line"` // there were two to draw it through
}

// Backtest is how well past readings were forecast. Errors are m.
type Backtest struct {
	Predictions     []Prediction `json:"predictions"`
	Held50          float64      `json:"held50"`
	Held80          float64      `json:"held80"`
	Held95          float64      `json:"held95"` // share of the readings within their bands
	Bias            float64      `json:"bias"`   // mean of reading less median
	Error           float64      `json:"error"`
	DefaultError    float64      `json:"default_error"` // mean distance from the reading
	Earlier         int          `json:"earlier"`       // readings before the latest occasions, which are not predicted
	Lines           int          `json:"lines"`         // readings that a straight line could predict
	LineError       float64      `json:"line_error"`
	ErrorWhereLines float64      `json:"error_where_lines"` // mean distance over those
}

// Teaching is what the logbook teaches of a car, and how far it can be
// trusted.
type Teaching struct {
	Car     string        `json:"car"`
	Rows    int           `json:"rows"`
	Trips   int           `json:"trips"` // rows of trips driven
	Days    float64       `json:"days"`  // circuit days in them
	Sets    []SetTeaching `json:"sets"`
	Hubs    []HubTeaching `json:"hubs"` // corners with a history
	Misread []Misread     `json:"misread"`
	// Questions are what the logbook does not say and would explain its readings.
	Questions []Question `json:"questions"`
	Warnings  []string   `json:"warnings"`
	Backtest  Backtest   `json:"backtest"`
	Trip      string     `json:"trip"` // that Worth is for; "" where none was asked about
	Currency  string     `json:"currency"`
	Worth     []Worth    `json:"worth"` // what it is worth to know before it, what saves most first
}

// SetTeaching is what was learned of one set's rates.
type SetTeaching struct {
	ID      string        `json:"id"`
	Name    string        `json:"name"`
	Kind    profiles.Kind `json:"kind"`
	Learned Learned       `json:"learned"`
	// Corners are the wheels of the set, each as a multiple of what both do on
	// average; Circuits those it was driven on, as multiples of what the model has
	// it lose there.
	Corners  []Apart `json:"corners"`
	Circuits []Apart `json:"circuits"`
}

// Apart is what sets a corner or a circuit apart.
type Apart struct {
	Name string `json:"name"`
	Multiplier
}

// HubTeaching is what one corner's bearings became.
type HubTeaching struct {
	Place      string     `json:"place"`
	Good       int        `json:"good"`     // still good when they came off, or when last felt
	Bad        []float64  `json:"bad"`      // ages at which others were found bad, L10 lives
	BadDays    []float64  `json:"bad_days"` // the same in circuit days, usual ones of like wear where the logbook has not all
	BadMeters  []float64  `json:"bad_m"`    // the way they had come, m; 0 where the logbook has not all
	Middle     float64    `json:"middle"`   // the life that half of new bearings there reach, L10 lives
	Usual      float64    `json:"usual"`    // the same at a corner without a history
	Lasts      [3]float64 `json:"lasts"`    // chance that a new one lasts 1, 2 and 3 usual circuit days
	UsualLasts [3]float64 `json:"usual_lasts"`
	Odd        float64    `json:"odd"`       // chance that the corner itself is wrong, and not what the circuits ask of it
	Other      string     `json:"other"`     // the corner on the other side
	OtherBad   int        `json:"other_bad"` // of its bearings, found bad
	Load       float64    `json:"load"`      // what the circuit days driven took here, as a multiple of there
	Repaired   bool       `json:"repaired"`  // something was put right there that was meant to cure it
	Cured      float64    `json:"cured"`     // chance that the last repair did
	Settles    *Settling  `json:"settles"`   // nil where nothing in the folder would, or it is as good as known
}

// Settling is what would tell whether a corner is wrong, or after a repair is still.
type Settling struct {
	Circuit string  `json:"circuit"`
	Days    int     `json:"days"`
	Wrong   float64 `json:"wrong"` // chance that a new bearing lasts them if the corner is wrong
	Sound   float64 `json:"sound"` // the same if it is not
	Right   float64 `json:"right"` // chance that what is then likelier is right
}

// Question is something that the logbook does not say and would explain its
// readings, to be answered by a row.
type Question struct {
	Set      string   `json:"set"`
	Place    string   `json:"place"`    // "" where it is of all wheels
	Odometer float64  `json:"odometer"` // m, since when
	Until    float64  `json:"until"`    // m, of a day that is missing; otherwise 0
	Size     float64  `json:"size"`     // multiple of the wear, circuit days, or m that the gauge reads deeper
	Chance   float64  `json:"chance"`   // by the readings, before an answer
	Taken    bool     `json:"taken"`    // it is the worse news, so the plan goes by it until it is answered
	Text     string   `json:"text"`
	Answers  []string `json:"answers"` // command lines
}

// Misread is a reading that the others contradict.
type Misread struct {
	Set      string    `json:"set"`
	Place    string    `json:"place"`
	Zone     string    `json:"zone"`
	Date     time.Time `json:"date"`
	Read     float64   `json:"read"`     // m
	Expected float64   `json:"expected"` // m, by the other readings
	Off      float64   `json:"off"`      // standard deviations
}

// LatestOccasions is how many of a kind's latest occasions on which it was
// read are predicted: each takes a fit of all that was known before.
// Engineering choice.
const LatestOccasions = 50
