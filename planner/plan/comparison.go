package plan

import (
	"example.com/tripwear/planner/kind"
)

// Comparison sets plans side by side. Every list of figures has one a way, in
// their order; measures are SI, shares 0-1, money in the owner's currency.
type Comparison struct {
	Car       string        `json:"car"`
	Currency  string        `json:"currency"`
	InTurn    bool          `json:"in_turn"` // trips, each from what the one before leaves; else each from today's car
	Ways      []Outcome     `json:"ways"`
	Decisions []SetAcross   `json:"decisions"` // those that differ first, by what they are expected to cost
	Wear      []PointAcross `json:"wear"`      // biggest changes first
	Tread     []WheelAcross `json:"tread"`     // LF, RF, LR, RR
}

// Outcome is one way in short.
type Outcome struct {
	Label    string    `json:"label"`
	Trip     string    `json:"trip"`
	Verdict  string    `json:"verdict"` // as of the plan
	Headline string    `json:"headline"`
	Why      string    `json:"why"`
	Safe     bool      `json:"safe"`
	Found    []string  `json:"found"` // what forbids to drive, with its set
	Road     float64   `json:"road"`  // m
	Days     int       `json:"days"`  // on circuits
	Laps     float64   `json:"laps"`  // hot
	Nights   int       `json:"nights"`
	Spend    []float64 `json:"spend"`    // by kind, in the order of ExpenseKinds
	Purse    float64   `json:"purse"`    // their sum
	Unpriced int       `json:"unpriced"` // expenses in it whose price is unknown
	Apart    float64   `json:"apart"`    // expected beside that: own work, being stopped short
	Life     float64   `json:"life"`     // what the trip wears off the parts as they stand, at their prices
}

// Answer is the verdict, and why where it is no yes.
func (o Outcome) Answer() string {
	if o.Safe {
		return o.Headline
	}
	return o.Headline + ": " + o.Why
}

// SetAcross is one set's decision in every way.
type SetAcross struct {
	ID      string    `json:"id"`
	Name    string    `json:"name"`
	Parts   []string  `json:"parts"`  // names of the fitted parts
	Absent  []bool    `json:"absent"` // it lies aside and stays at home
	Actions []Action  `json:"actions"`
	Stops   []string  `json:"stops"`   // where it is replaced on the way; "" otherwise
	Spares  []bool    `json:"spares"`  // replaced, and a second set brought
	PAsIs   []float64 `json:"p_as_is"` // chance of the limit if nothing is done
	POut    []float64 `json:"p_out"`   // chance of being stopped short as decided
	Cost    []float64 `json:"cost"`    // expected
	Differs bool      `json:"differs"` // in what is done, or on which part
}

// PointAcross is what the trip takes from one point, nominal.
type PointAcross struct {
	Set     string       `json:"set"`
	Place   string       `json:"place"`
	Zone    string       `json:"zone"`
	Part    string       `json:"part"` // of a set that swaps; "" of the rest
	Measure kind.Measure `json:"measure"`
	Taken   []float64    `json:"taken"`   // in the measure's unit; for a boiling margin the hottest leg's rise
	Share   []float64    `json:"share"`   // of a new part's life
	End     []float64    `json:"end"`     // median level at the end, as the car stands; NaN where it stays at home
	PLimit  []float64    `json:"p_limit"` // chance of the limit by then
	Change  float64      `json:"change"`  // largest difference in Share or in PLimit
}

// WheelAcross is the trade of tread life against evenness at one wheel.
type WheelAcross struct {
	Place   string    `json:"place"`
	Part    string    `json:"part"`  // of a set that swaps; "" of the rest
	Worst   []string  `json:"worst"` // zone that loses most
	Best    []string  `json:"best"`  // zone that loses least
	Most    []float64 `json:"most"`  // m lost at the worst zone
	Least   []float64 `json:"least"` // m lost at the best zone
	Mean    []float64 `json:"mean"`  // m lost over the three zones: rubber in all
	Even    []float64 `json:"even"`  // Least over Most: 1 is even wear
	Lasts   []float64 `json:"lasts"` // such trips that new tread lasts, by its worst zone; 0 where nothing is lost
	Differs bool      `json:"differs"`
}
