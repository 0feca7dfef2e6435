package plan

import (
	"time"

	"example.com/tripwear/profiles"
)

// Inventory is what a car has on, what is used of it, and what comes due when at
// its usual use. Measures are SI, shares 0-1.
type Inventory struct {
	Car      string    `json:"car"`
	Day      time.Time `json:"day"`
	Odometer float64   `json:"odometer"`
	Meters   float64   `json:"meters"`       // usual, a month
	Days     float64   `json:"circuit_days"` // usual, a month
	Everyday float64   `json:"everyday"`     // of those meters, beside trips
	Given    bool      `json:"given"`        // Everyday is the owner's word
	Since    time.Time `json:"since"`        // the rest is what it was since this day; zero where no part has a date
	Parts    []InUse   `json:"parts"`        // those due first before the others
}

// InUse is a set on the car.
type InUse struct {
	Set      string        `json:"set"`
	Name     string        `json:"name"`
	Kind     profiles.Kind `json:"kind"`
	Part     string        `json:"part"`
	PartName string        `json:"part_name"`
	Used     float64       `json:"used"` // of its life, nominal, where most is used; 1 is the limit
	By       string        `json:"by"`   // the place and what counts there
	Due      time.Time     `json:"due"`  // the day of its limit at the usual use; zero where that is beyond Ahead, or a matter of chance
	Measured string        `json:"measured"`
	Cycles   *float64      `json:"heat_cycles"`       // sessions on circuit so far, where its kind is aged by them; nil elsewhere
	Most     float64       `json:"heat_cycles_limit"` // 0 where none is given
	Notes    []string      `json:"notes"`             // what forbids to drive on it, or wants watching
}

// Ahead is how many years an inventory looks ahead. Engineering choice.
const Ahead = 10
