package plan

import (
	"time"

	"example.com/tripwear/profiles"
)

// Cooling is the margin between brake fluid and boiling on the last day of a
// circuit visit, nominal, and what would widen it. Temperatures are K.
type Cooling struct {
	Leg       int       `json:"leg"`
	Years     float64   `json:"years"`      // the fluid's age then
	Margin    float64   `json:"margin"`     // at the hottest session
	BySession []float64 `json:"by_session"` // lowest so far, session by session
	Thin      bool      `json:"thin"`       // the chance of running below the wanted margin is more than small
	Flushed   float64   `json:"flushed"`    // with fluid changed before leaving
	Ducted    float64   `json:"ducted"`     // with ducts to the front rotors
	Shorter   float64   `json:"shorter"`    // with sessions of ShortTime
	ShortTime float64   `json:"short_time"` // s; 0 where the sessions are short already
}

// Corner is what the trip takes from one corner of the car, nominal.
type Corner struct {
	Place string  `json:"place"`
	Tread float64 `json:"tread"` // m, mean of the zones
	Worst float64 `json:"worst"` // m, the zone that loses most
	Zone  string  `json:"zone"`
	Hub   float64 `json:"hub"` // L10 lives
}

// Plan is the answer for one car and one trip. All measures are SI,
// temperatures degrees Celsius, shares 0-1.
type Plan struct {
	Car      string    `json:"car"`
	Trip     string    `json:"trip"`
	TripID   string    `json:"trip_id"`
	Depart   time.Time `json:"depart"`
	Odometer float64   `json:"odometer"` // m, at departure
	Draws    int       `json:"draws"`
	Seed     uint64    `json:"seed"`

	Standing    *Standing    `json:"standing"` // where the trip stands; nil before it
	Legs        []Leg        `json:"legs"`
	Days        []Day        `json:"days"`     // the same by day
	Rain        float64      `json:"rain"`     // share of the road expected to be wet
	Circuits    []View       `json:"circuits"` // the trip's circuits from above, those whose corners are known
	Sets        []Set        `json:"sets"`
	Swaps       []Swap       `json:"swaps"`    // used sets that go on in place of others, in the order of the trip
	Courses     []Course     `json:"courses"`  // of what is measured, as decided
	Shopping    []Item       `json:"shopping"` // what to buy: what is late first, then in order of need
	Totals      []Total      `json:"totals"`
	Packing     []Item       `json:"packing"` // what goes in the trunk
	Tools       []Tool       `json:"tools"`
	TopUp       float64      `json:"top_up"` // m3 of oil expected to be added on the way
	Boot        Boot         `json:"boot"`
	Budget      []Expense    `json:"budget"`  // what the trip takes out of the purse, by kind
	Apart       []Expense    `json:"apart"`   // what it costs beside that: own work, being stopped short
	Checks      []Check      `json:"checks"`  // what to inspect, where
	Cooling     []Cooling    `json:"cooling"` // of the brake fluid, a circuit visit each
	Probed      []Probing    `json:"probed"`  // tread temperatures read
	Scrub       [4]float64   `json:"scrub"`   // m dragged sideways a m rolled by the toe of LF, RF, LR, RR
	Corners     [4]Corner    `json:"corners"` // what the trip takes from LF, RF, LR, RR
	Suffers     string       `json:"suffers"` // the corner that suffers most, and why
	SuffersWhy  string       `json:"suffers_why"`
	Warnings    []string     `json:"warnings"`
	Assumptions []Assumption `json:"assumptions"`
	Leanings    []Leaning    `json:"leanings"` // those that move the answer most, where they were asked for
	Cautions    []string     `json:"cautions"`
	Choice      Choice       `json:"choice"`
	Own         []Change     `json:"own"`   // what would do of what the owner has: a set that lies aside, worn at the circuits
	Safer       []Change     `json:"safer"` // the smallest changes that make the whole plan safe, cheapest first
	Tried       int          `json:"tried"` // changes planned anew to find them; 0 where none was looked for
	Currency    string       `json:"currency"`
	Verdict     string       `json:"verdict"`
	Why         string       `json:"why"`      // one sentence without its full stop
	Readings    []Deciding   `json:"readings"` // what to read before the answer can be given, what turns most first
	Worth       []Worth      `json:"worth"`    // what it is worth to know what is not known, what saves most first
	Safe        bool         `json:"safe"`     // the verdict is Yes or YesOnce
	Answer      *Answer      `json:"answer"`   // on one screen; nil where a plan has no lists
	Varied      Varied       `json:"-"`        // empty where nobody asked for it
}

// Assumption is a value the plan leans on that nobody measured on this car.
type Assumption struct {
	What    string `json:"what"`
	Value   string `json:"value"`
	Tag     string `json:"tag"`
	Source  string `json:"source"`
	Replace string `json:"replace"` // how to replace it by a measurement
}

// Driven is what the legs come to: the road in m, circuit days and hot laps.
func (p *Plan) Driven() (road float64, days int, laps float64) {
	for _, l := range p.Legs {
		switch l.Kind {
		case profiles.RoadLeg:
			road += l.Meters
		case profiles.CircuitLeg:
			days++
			laps += l.Laps
		}
	}
	return road, days, laps
}
