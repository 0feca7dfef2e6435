package plan

import (
	"cmp"
	"slices"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
)

// Answer is what a plan comes to, on one screen or one sheet, in the order in
// which it is done. What is brought, with its room, is Packing and Boot; the cost
// is Budget; what to read before there is an answer is Readings; what would make
// a no safe is Safer.
type Answer struct {
	Found  []Found      `json:"found"`   // what was found that forbids driving
	Orders []int        `json:"orders"`  // of Shopping: still to be bought before leaving, by the day to order; what has none comes last
	AtHome []string     `json:"at_home"` // work before leaving, in its order
	Stops  []Work       `json:"stops"`   // on the way
	Days   []CircuitDay `json:"days"`
	Watch  []Watched    `json:"watch"` // what is likeliest to end short first
	Weak   *Weak        `json:"weak"`  // nil where the car has no sets
}

// Found is what was found on a set that forbids driving on it.
type Found struct {
	Set  string `json:"set"`
	Name string `json:"name"`
	What string `json:"what"`
}

// Work is what is replaced at a stop, or is due on a road where none is.
type Work struct {
	Leg     int       `json:"leg"`
	Name    string    `json:"name"`    // of the stop or the road
	Day     time.Time `json:"day"`     // zero where the trip has no date
	Sets    []string  `json:"sets"`    // names
	Meters  float64   `json:"metres"`  // driven from home until then
	Cost    float64   `json:"cost"`    // of the visit and its labor
	Due     bool      `json:"due"`     // no stop is there: it wants one
	Skipped float64   `json:"skipped"` // the highest chance of a limit among the sets, were nothing done
	End     string    `json:"end"`     // that set's limit, in a verb
}

// The calls of a circuit day.
const (
	DayOn      = "on"
	DayChanged = "changed" // a spare has to be on before it
	DayOff     = "off"
)

// CircuitDay is whether a day is driven, and the one reading that would flip it.
type CircuitDay struct {
	Leg   int      `json:"leg"`
	Call  string   `json:"call"`
	Fit   []string `json:"fit"`   // names of the sets whose spare goes on before it
	Turns *Turning `json:"turns"` // the likeliest to turn it; nil where none read by a gauge would, or the day is off
}

// Turning is a reading that turns a day, with its set.
type Turning struct {
	Set  string `json:"set"`
	Name string `json:"name"`
	Need
}

// Watched is what is looked at on the way, a set or all hubs together.
type Watched struct {
	Set     string        `json:"set"` // the likeliest to end short
	Name    string        `json:"name"`
	Kind    profiles.Kind `json:"kind"`
	Look    string        `json:"look"`    // what is looked at, in a few words
	Where   string        `json:"where"`   // first
	Measure kind.Measure  `json:"measure"` // what a gauge reads; "" where nothing is read
	Act     float64       `json:"act"`
	Stop    float64       `json:"stop"`
	When    string        `json:"when"`   // on which occasions; "" where the trip has none
	Before  int           `json:"before"` // the leg before which its spare goes on at the latest; -1 without
	Chance  float64       `json:"chance"` // of being stopped short, as decided
}

// First is what is looked at, and where first.
func (w Watched) First() string {
	if w.Where == "" {
		return w.Look
	}
	return w.Look + ", " + w.Where + " first"
}

// Weak is the weak spot of a plan: the set with the highest chance of being
// stopped short that is left as decided.
type Weak struct {
	Set    string  `json:"set"`
	Name   string  `json:"name"`
	Where  string  `json:"where"`
	Chance float64 `json:"chance"`
	End    string  `json:"end"`  // what happens to it, in a verb
	Most   int     `json:"most"` // the leg that takes most of its life; -1 where none does
}

// WeakSpot is the set with the highest chance of being stopped short as decided;
// nil where there is none.
func (p *Plan) WeakSpot() *Set {
	if len(p.Sets) == 0 {
		return nil
	}
	k := 0
	for i := range p.Sets {
		if p.Sets[i].Decision.POut > p.Sets[k].Decision.POut {
			k = i
		}
	}
	return &p.Sets[k]
}

// ByChance orders sets by their chance of being stopped short, the highest first.
func ByChance(sets []Set) []Set {
	return slices.SortedStableFunc(slices.Values(sets), func(a, b Set) int { return cmp.Compare(b.Decision.POut, a.Decision.POut) })
}
