// Package planner turns a car folder and a trip into a plan: what every part
// has left after every leg, with its uncertainty, and what to do about it.
//
// Nominal wear comes from the wear models; the draws put the owner's
// uncertainty around it. The same input and seed give the same plan.
package planner

import (
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
)

// Defaults and range of Options.
const (
	DefaultDraws = 10_000
	DefaultSeed  = 1
	LeastDraws   = 100
	MostDraws    = 2_000_000
)

// Options steer the projection, not the car or the trip.
type Options struct {
	Draws int
	Seed  uint64
	Today time.Time // for order dates already past; zero where the caller has no clock
	Prior bool      // leave aside what the logbook teaches of the rates
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

	Legs        []Leg        `json:"legs"`
	Days        []Day        `json:"days"`     // the same by day
	Rain        float64      `json:"rain"`     // share of the road expected to be wet
	Circuits    []View       `json:"circuits"` // the trip's circuits from above, those whose corners are known
	Sets        []Set        `json:"sets"`
	Shopping    []Item       `json:"shopping"` // what to buy: what is late first, then in order of need
	Totals      []Total      `json:"totals"`
	Packing     []Item       `json:"packing"` // what goes in the boot
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
	Cautions    []string     `json:"cautions"`
	Choice      Choice       `json:"choice"`
	Currency    string       `json:"currency"`
	Safe        bool         `json:"safe"` // every set ends the trip within the safety cap as decided, and nothing was found that forbids to drive
}

// Leg is one leg of the trip as it will be driven. A circuit visit of several
// days is one leg a day, so that the second day can be judged by itself.
type Leg struct {
	Kind     profiles.LegKind `json:"kind"`
	Name     string           `json:"name"`
	Surface  string           `json:"surface"`
	Metres   float64          `json:"metres"`    // driven, circuit laps included
	Ambient  float64          `json:"ambient"`   // C
	Rain     float64          `json:"rain"`      // share of the distance
	Wet      []Wet            `json:"wet"`       // what the tread means in it, an axle each; none without rain
	FuelUsed float64          `json:"fuel_used"` // m3
	Tanks    float64          `json:"tanks"`     // tanks of fuel the leg takes
	Hours    float64          `json:"hours"`     // of driving
	EndDay   float64          `json:"end_day"`   // days since the midnight before departure when the leg ends

	Start    time.Time `json:"start"`
	End      time.Time `json:"end"`       // zero where the trip has no date
	Nights   int       `json:"nights"`    // away, from the end of the leg before to the end of this one
	Waits    int       `json:"waits"`     // of them, those that wait for a fixed date
	Fee      float64   `json:"fee"`       // entry, toll or what the stop charges
	Refuels  int       `json:"refuels"`   // fuel stops on the way or on the circuit day
	RefuelAt []float64 `json:"refuel_at"` // m from the start of a road to each of them

	// circuits
	Circuit       string     `json:"circuit"` // its name without the day
	Day           int        `json:"day"`
	Days          int        `json:"days"` // first is 1
	Sessions      int        `json:"sessions"`
	SessionTime   float64    `json:"session_time"`
	Laps          int        `json:"laps"` // hot laps
	LapTime       float64    `json:"lap_time"`
	Pace          float64    `json:"pace"`
	LeftShare     float64    `json:"left_share"`
	HeavyBrakings int        `json:"heavy_brakings"`
	BySummary     bool       `json:"by_summary"`
	Reverse       bool       `json:"reverse"`     // driven the other way round
	WetCircuit    bool       `json:"wet_circuit"` // all of it driven in the wet
	TopSpeed      float64    `json:"top_speed"`
	WheelLifts    bool       `json:"wheel_lifts"`
	RotorPeak     [2]float64 `json:"rotor_peak"`   // C, front and rear, hottest after a braking
	RotorBulk     [2]float64 `json:"rotor_bulk"`   // C, mean over the hottest session
	PadsTooHot    [2]bool    `json:"pads_too_hot"` // that mean is above what the pads take
	FluidPeak     float64    `json:"fluid_peak"`   // C

	// stops
	Can  []string `json:"can"`
	Stay float64  `json:"stay"` // s that the car stands there
}

// Measure says what a point's level counts.
type Measure = kind.Measure

// The measures of a point.
const (
	Tread      = kind.Tread
	PadLining  = kind.PadLining
	Crack      = kind.Crack
	Thickness  = kind.Thickness
	HubLife    = kind.HubLife
	OilLife    = kind.OilLife
	BoilMargin = kind.BoilMargin
)

// Set is what is replaced together, with its projection and decision.
type Set struct {
	ID       string        `json:"id"`   // such as tires-rear, hub-LF
	Name     string        `json:"name"` // such as "rear tires"
	Kind     profiles.Kind `json:"kind"`
	Part     string        `json:"part"` // id of the fitted part
	PartName string        `json:"part_name"`
	Critical bool          `json:"critical"` // the safety cap applies
	Caught   float64       `json:"caught"`   // share of crossings caught by the plan's checks

	Points []Point   `json:"points"`
	After  []Band    `json:"after"` // set as a whole: share of life left at its worst point, after each leg
	First  int       `json:"first"` // index of the point most often first to its limit
	Most   int       `json:"most"`  // index of the leg that takes most of its life, -1 where none does
	Used   []float64 `json:"used"`

	Measured   string    `json:"measured"`    // how the starting state is known
	MeasuredOn time.Time `json:"measured_on"` // the day of its oldest reading; zero where it is car.yaml\'s
	Driven     float64   `json:"driven"`      // m since that reading, before the trip
	Learned    Learned   `json:"learned"`     // what the logbook teaches of its rates
	Stop       []string  `json:"stop"`        // what was found that forbids driving on it as it is, place by place
	Seen       []string  `json:"seen"`        // what else was found
	Decision   Decision  `json:"decision"`

	// Spreads of the wear rates, one standard deviation of the logarithm: on
	// the road, on a circuit known corner by corner, and what a circuit known
	// by its summary alone adds in quadrature.
	RoadSpread    float64 `json:"road_spread"`
	CircuitSpread float64 `json:"circuit_spread"`
	SummarySpread float64 `json:"summary_spread"`
}

// Point is one thing measured on a set: a tread zone, a pad, a rotor face, a hub.
type Point struct {
	Place   string    `json:"place"`
	Zone    string    `json:"zone"` // inside, middle, outside; "" where there is only one
	Measure Measure   `json:"measure"`
	New     float64   `json:"new"`
	Start   float64   `json:"start"`
	Limit   float64   `json:"limit"`
	Margin  float64   `json:"margin"`
	Loss    []float64 `json:"loss"`  // nominal, per leg
	After   []Band    `json:"after"` // level after each leg, as the car stands, nothing renewed

	Slow    []float64  `json:"slow"`
	Fast    []float64  `json:"fast"`    // Loss at one spread of pace below and above; nil for the boil margin
	Prior   [2]float64 `json:"prior"`   // nominal wear before the trip that nobody measured, already off Start: road, circuit
	Gauge   float64    `json:"gauge"`   // one standard deviation of Start as read; 0 where it was not measured
	Reading float64    `json:"reading"` // one standard deviation of a new reading; 0 where none is assumed
	Cap     []float64  `json:"cap"`     // level that the months allow after each leg; nil where time does not count
}

// Band is a projected level with its chances.
type Band struct {
	P5      float64 `json:"p5"`
	P50     float64 `json:"p50"`
	P95     float64 `json:"p95"`
	PLimit  float64 `json:"p_limit"`  // chance that the limit was crossed by then
	PMargin float64 `json:"p_margin"` // chance that the margin was crossed by then
}

// Action is what is done about a set.
type Action string

// The actions, in the trade's words.
const (
	Run         Action = "run"
	Watch       Action = "watch"
	Carry       Action = "carry"
	RenewBefore Action = "renew before leaving"
	RenewAtStop Action = "renew at stop"
	DoNotTake   Action = "do not take it"
)

// Decision is the action chosen for a set, with its reason.
type Decision struct {
	Action  Action  `json:"action"`
	Leg     int     `json:"leg"`      // the stop's leg for RenewAtStop; for Carry the leg before which the spare goes on at the latest, -1 where only if the checks call for it; otherwise -1
	Spare   bool    `json:"spare"`    // renewed before leaving and a second set carried
	POut    float64 `json:"p_out"`    // chance of being stopped short, as decided
	PUnsafe float64 `json:"p_unsafe"` // chance of driving across the limit unnoticed, as decided
	PAsIs   float64 `json:"p_as_is"`  // chance that the limit is crossed if nothing is done
	PNeed   float64 `json:"p_need"`   // chance that a carried spare is fitted
	Cost    float64 `json:"cost"`     // expected, in the owner's currency
	Labor   float64 `json:"labor"`    // of it, labour
	LifeEnd float64 `json:"life_end"` // median share of life left at the end, as decided
	Shop    bool    `json:"shop"`     // a workshop does the work
	Shelf   int     `json:"shelf"`    // sets it takes from the owner's shelf
	Reason  string  `json:"reason"`   // one sentence with its numbers
	Where   string  `json:"where"`    // where to look: place, zone, or leg
	Next    *Rival  `json:"next"`     // the best plan without this choice; nil where there is none
	Flip    *Flip   `json:"flip"`     // what would change the answer; nil where nothing near would
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
	Metres float64 `json:"metres"` // on that road; 0 for a circuit
	Less   bool    `json:"less"`   // the action changes below that figure, otherwise above it
	Action Action  `json:"action"`
}

// Assumption is a value the plan leans on that nobody measured on this car.
type Assumption struct {
	What    string `json:"what"`
	Value   string `json:"value"`
	Tag     string `json:"tag"`
	Source  string `json:"source"`
	Replace string `json:"replace"` // how to replace it by a measurement
}
