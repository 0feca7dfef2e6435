package plan

import (
	"time"

	"example.com/tripwear/planner/kind"
)

// Season is several trips of one car planned as one: each leaves with what the
// one before is expected to leave, as decided, and every set is replaced where
// that costs least over all of them.
type Season struct {
	Car      string        `json:"car"`
	Currency string        `json:"currency"`
	Usual    float64       `json:"usual"`    // m a month at home between trips
	Reckoned time.Time     `json:"reckoned"` // since when that is the car's own; zero where it was given
	Calendar []SeasonTrip  `json:"calendar"` // by date, with the days at home between trips
	Work     []SeasonWork  `json:"work"`     // what to do when
	Orders   []SeasonOrder `json:"orders"`   // by the last day to order
	Months   []Month       `json:"months"`   // out of the purse
	Waits    []Waiting     `json:"waits"`    // what replacing at another time would cost more
	Most     int           `json:"most"`     // which of the calendar asks most of the car
	Cost     float64       `json:"cost"`     // expected: of what is decided about the sets
	Bound    float64       `json:"bound"`    // no combination costs less
	Nodes    int           `json:"-"`        // of the search
	InTurn   float64       `json:"in_turn"`  // Cost, were each trip planned by itself from what the one before leaves
	Verdict  string        `json:"verdict"`  // of all trips together
	Safe     bool          `json:"safe"`
	Unread   []string      `json:"unread"` // sets that nobody read
	Own      []Change      `json:"own"`    // what would do of what the owner has: a set that lies aside, worn at the circuits of every trip

	Budget *SeasonBudget `json:"budget"` // nil without one

	Refused       int `json:"refused"`         // times that a set keeps the car at home
	RefusedInTurn int `json:"refused_in_turn"` // Refused, were each trip planned by itself
}

// Plans are those of its calendar.
func (s *Season) Plans() []*Plan {
	var out []*Plan
	for _, t := range s.Calendar {
		out = append(out, t.Plan)
	}
	return out
}

// SeasonTrip is a trip of a season, or the days at home before one.
type SeasonTrip struct {
	Trip     string    `json:"trip"`
	TripID   string    `json:"trip_id"`
	AtHome   bool      `json:"at_home"`
	Depart   time.Time `json:"depart"`
	Back     time.Time `json:"back"`
	Road     float64   `json:"road"` // m
	Days     int       `json:"days"` // on circuits
	Verdict  string    `json:"verdict"`
	Headline string    `json:"headline"`
	Why      string    `json:"why"`
	Purse    float64   `json:"purse"`    // what it takes out of the purse, as decided
	Unpriced int       `json:"unpriced"` // expenses that are not known
	Stopped  float64   `json:"stopped"`  // expected cost of being stopped short
	Life     float64   `json:"life"`     // worn off the parts, at their prices
	Sets     []Set     `json:"sets"`     // as they are on this trip, with what is decided
	Plan     *Plan     `json:"-"`        // of it alone, without its lists
}

// SeasonWork is something done about a set, or brought.
type SeasonWork struct {
	Trip   int       `json:"trip"` // of the calendar
	Day    time.Time `json:"day"`
	Set    string    `json:"set"`
	Name   string    `json:"name"`
	Action Action    `json:"action"`
	Spare  bool      `json:"spare"`
	Where  string    `json:"where"` // the stop; "" at home
	Reason string    `json:"reason"`

	AsIs float64 `json:"as_is"` // chance that the limit is reached on that trip if nothing is done

	Decides *Reading `json:"decides"` // what the reading at home before is expected to be, which will decide it; nil on the first trip and where none is read
	Place   string   `json:"place"`   // of that reading, with its zone

	Measure kind.Measure `json:"measure"`
}

// SeasonOrder is something to buy for a trip.
type SeasonOrder struct {
	Item
	Trip string    `json:"trip"`
	Of   int       `json:"of"`  // that trip in the calendar
	Day  time.Time `json:"day"` // to order it on, with others; zero where any day will do
}

// Month is what a month takes out of the purse.
type Month struct {
	First  time.Time `json:"first"` // its first day
	Amount float64   `json:"amount"`
}

// Waiting is when a set that is replaced could be replaced first, by itself.
type Waiting struct {
	Set     string `json:"set"`
	Name    string `json:"name"`
	Decided int    `json:"decided"` // when it is, of the calendar
	Times   []Wait `json:"times"`
}

// Wait is one time of it.
type Wait struct {
	Trip  int     `json:"trip"`  // of the calendar
	Extra float64 `json:"extra"` // expected, more than as decided
}

// SeasonBudget is what parts may cost a month, saved up where it is not spent.
type SeasonBudget struct {
	Month  float64   `json:"month"`
	From   time.Time `json:"from"`   // the first month's is there
	Holds  bool      `json:"holds"`  // what is decided keeps to it; else no choice was found that does
	Proved bool      `json:"proved"` // or there is none
	More   float64   `json:"more"`   // expected cost of keeping to it
	Takes  float64   `json:"takes"`  // the least a month that what is decided keeps to
}
