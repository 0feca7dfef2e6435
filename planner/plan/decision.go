package plan

import (
	"math"
	"slices"
	"time"

	"example.com/tripwear/planner/kind"
)

// Choice is the proof of the plan's decisions: no other combination of safe
// actions that fits the trunk is expected to cost less.
type Choice struct {
	Cost    float64   `json:"cost"`  // expected, of all sets together, shop visits included
	Bound   float64   `json:"bound"` // no combination costs less
	Nodes   int       `json:"-"`     // of the searches
	LeftOut []LeftOut `json:"left_out"`

	Turns []PriceTurn `json:"turns"` // what an unknown price would turn
}

// PriceTurn is a set about which another thing is done where a part whose price
// nobody knows costs so much.
type PriceTurn struct {
	Part   string  `json:"part"`
	Price  float64 `json:"price"`
	Set    string  `json:"set"` // id
	Name   string  `json:"name"`
	Action Action  `json:"action"`
	Leg    int     `json:"leg"`
	Spare  bool    `json:"spare"`
	Saving float64 `json:"saving"` // of knowing that it is this, over the plan with the guess
}

// LeftOut is a spare that the trunk has no room for.
type LeftOut struct {
	Set    string  `json:"set"`
	Action Action  `json:"action"`
	Saving float64 `json:"saving"` // expected, were there room
	Volume float64 `json:"volume"` // m3
	Mass   float64 `json:"mass"`   // kg
}

// Action is what is done about a set.
type Action string

// The actions, in the trade's words.
const (
	Run           Action = "run"
	Watch         Action = "watch"
	Bring         Action = "bring"
	ReplaceBefore Action = "replace before leaving"
	ReplaceAtStop Action = "replace at stop"
	DoNotTake     Action = "do not take it"
)

// NotTaken is what not taking the car costs in a choice: more than anything else
// can.
const NotTaken = 1e8

// Decision is the action chosen for a set, with its reason.
type Decision struct {
	Action  Action    `json:"action"`
	Leg     int       `json:"leg"`      // the stop's for ReplaceAtStop; for Bring the one before which the spare goes on at the latest, -1 where only the checks call for it; otherwise -1
	Watched bool      `json:"watched"`  // it counts on the checks of a watched set
	Spare   bool      `json:"spare"`    // replaced before leaving, and a second set brought
	POut    float64   `json:"p_out"`    // chance of being stopped short, as decided
	PUnsafe float64   `json:"p_unsafe"` // chance of driving across the limit unnoticed, as decided
	PAsIs   float64   `json:"p_as_is"`  // chance that the limit is crossed if nothing is done
	PNeed   float64   `json:"p_need"`   // chance that a spare that was brought is fitted
	On      []float64 `json:"on"`       // of a spare that was brought, by leg and back home: chance that it is on by then; nil without one
	Cost    float64   `json:"cost"`     // expected, in the owner's currency
	Labor   float64   `json:"labor"`    // of it, labor
	LifeEnd float64   `json:"life_end"` // median share of life left at the end, as decided
	Shop    bool      `json:"shop"`     // a shop does the work
	Shelf   int       `json:"shelf"`    // sets it takes from the owner's shelf
	Shares  string    `json:"shares"`   // of Bring: id of the set whose spare serves it too; "" where it has its own
	Reason  string    `json:"reason"`   // one sentence with its numbers
	Bind    Bind      `json:"bind"`     // of DoNotTake: the constraint that binds; otherwise ""
	Due     *Due      `json:"due"`      // where it is due, if no stop of the trip and no change before it keeps it within its limit
	Where   string    `json:"where"`    // where to look: place, zone, or leg
	Next    *Rival    `json:"next"`     // the best plan without this choice; nil where there is none
	Flip    *Flip     `json:"flip"`     // what would change the answer; nil where nothing near would

	Days  []Need   `json:"days"`  // by circuit day, the reading that would turn it; without those that none would
	Safer []Change `json:"safer"` // the smallest changes that make the set safe, cheapest first; nil where none was looked for or found
}

// NewFrom is the leg before which a new part is on as decided; -1 where none is.
// A spare counts as on from the leg before which it goes on at the latest, or by
// which half of the draws have it on.
func (d Decision) NewFrom() int {
	switch d.Action {
	case ReplaceBefore:
		return 0
	case ReplaceAtStop:
		return d.Leg + 1
	case Bring:
		if d.Leg >= 0 {
			return d.Leg
		}
		return slices.IndexFunc(d.On, func(share float64) bool { return share >= 0.5 })
	case Run, Watch, DoNotTake:
	}
	return -1
}

// Need is the reading before a circuit day under which the day turns: solved as
// the decision is, for the part that is on by then. Levels are as the measure counts.
type Need struct {
	Leg     int          `json:"leg"`
	Place   string       `json:"place"`
	Zone    string       `json:"zone"`
	Measure kind.Measure `json:"measure"`
	Under   float64      `json:"under"`
	Expect  float64      `json:"expect"` // nominal, as decided
	Chance  float64      `json:"chance"` // that it reads less than Under
	Action  Action       `json:"action"` // then: bring, where the spare that is along goes on first; do not take it, where the day is off
}

// Bind is the constraint that leaves a set without a safe action.
type Bind string

// The constraints.
const (
	BindLate   Bind = "late"                   // a new set would come after departure
	BindRoom   Bind = "no room"                // the trunk does not hold what would make it safe
	BindFitted Bind = "cannot be fitted there" // a new set would make it safe where this part cannot be fitted
	BindCap    Bind = "past the cap"           // nothing keeps the chance within the safety cap
	BindFound  Bind = "found"                  // what was found comes first
)

// Due is where on a road something is due.
type Due struct {
	Leg    int     `json:"leg"`
	Meters float64 `json:"metres"` // from its start
}

// Change is a change of the trip or the car that makes the plan safe.
type Change struct {
	What string    `json:"what"`
	Cost float64   `json:"cost"` // more out of the purse than the plan as it stands; not a number where a price is unknown
	Days float64   `json:"days"` // the trip ends later
	At   *Due      `json:"at"`   // where on a road a stop is put in; nil where none is
	Date time.Time `json:"date"` // of the departure it moves, or the last day to order what it takes; zero where it has none
}

// Costs says what it costs, in words of the one who writes money.
func (c Change) Costs(money func(float64) string) string {
	switch cost := math.Round(c.Cost); {
	case cost > 0:
		return "about " + money(c.Cost) + " more"
	case cost < 0:
		return "about " + money(-c.Cost) + " less"
	case cost == 0:
		return "costs nothing more"
	}
	return "its price is not known"
}

// Rival is the action a set would get if its chosen one were not to be had.
type Rival struct {
	Action Action  `json:"action"`
	Leg    int     `json:"leg"`
	Spare  bool    `json:"spare"`
	Extra  float64 `json:"extra"` // expected cost more, of the whole plan
	POut   float64 `json:"p_out"`
}

// Flip is the usage at which another action becomes the better one.
type Flip struct {
	Leg    int     `json:"leg"`    // of the road, or the first day of the circuit visit
	Laps   int     `json:"laps"`   // on that circuit in all; 0 for a road
	Meters float64 `json:"metres"` // on that road; 0 for a circuit
	Less   bool    `json:"less"`   // the action changes below that figure, otherwise above it
	Action Action  `json:"action"`
}
