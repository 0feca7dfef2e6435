package plan

import (
	"fmt"
	"time"

	"example.com/tripwear/planner/kind"
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

// Usual is the use a month in words, and where it is from; "" where nobody knows.
func (inv *Inventory) Usual(travel func(meters float64) string) string {
	out, trips := "", inv.Meters
	if inv.Given {
		out, trips = travel(inv.Everyday)+" a month by car.yaml", inv.Meters-inv.Everyday
	}
	if inv.Since.IsZero() {
		return out
	}
	driven := fmt.Sprintf("%.1f circuit days a month, since %s", inv.Days, inv.Since.Format("2 Jan 2006"))
	if trips > 0 {
		driven = travel(trips) + " and " + driven
	}
	if inv.Given {
		return out + "; on trips " + driven
	}
	return driven
}

// Past says whether a set is at its limit.
func (s InUse) Past() bool { return s.Used >= 1 && !kind.Of(s.Kind).Lifetime }

// Comes is when a set's limit comes, in words.
func (s InUse) Comes() string {
	switch {
	case kind.Of(s.Kind).Lifetime:
		return "fails by chance"
	case s.Past():
		return "past its limit now"
	case s.Due.IsZero():
		return fmt.Sprintf("not within %d years", Ahead)
	}
	return s.Due.Format("Jan 2006")
}
