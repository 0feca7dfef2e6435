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
	Car      string
	Trip     string
	TripID   string
	Depart   time.Time
	Odometer float64 // m, at departure
	Draws    int
	Seed     uint64

	Legs        []Leg
	Days        []Day   // the same by day
	Rain        float64 // share of the road expected to be wet
	Circuits    []View  // the trip's circuits from above, those whose corners are known
	Sets        []Set
	Shopping    []Item // what to buy: what is late first, then in order of need
	Totals      []Total
	Packing     []Item // what goes in the boot
	Tools       []Tool
	TopUp       float64 // m3 of oil expected to be added on the way
	Boot        Boot
	Budget      []Expense  // what the trip takes out of the purse, by kind
	Apart       []Expense  // what it costs beside that: own work, being stopped short
	Checks      []Check    // what to inspect, where
	Cooling     []Cooling  // of the brake fluid, a circuit visit each
	Probed      []Probing  // tread temperatures read
	Scrub       [4]float64 // m dragged sideways a m rolled by the toe of LF, RF, LR, RR
	Corners     [4]Corner  // what the trip takes from LF, RF, LR, RR
	Suffers     string     // the corner that suffers most, and why
	SuffersWhy  string
	Warnings    []string
	Assumptions []Assumption
	Cautions    []string
	Choice      Choice
	Currency    string
	Safe        bool // every set ends the trip within the safety cap as decided, and nothing was found that forbids to drive
}

// Leg is one leg of the trip as it will be driven. A circuit visit of several
// days is one leg a day, so that the second day can be judged by itself.
type Leg struct {
	Kind     profiles.LegKind
	Name     string
	Surface  string
	Metres   float64 // driven, circuit laps included
	Ambient  float64 // C
	Rain     float64 // share of the distance
	Wet      []Wet   // what the tread means in it, an axle each; none without rain
	FuelUsed float64 // m3
	Tanks    float64 // tanks of fuel the leg takes
	Hours    float64 // of driving
	EndDay   float64 // days since the midnight before departure when the leg ends

	Start, End time.Time // zero where the trip has no date
	Nights     int       // away, from the end of the leg before to the end of this one
	Waits      int       // of them, those that wait for a fixed date
	Fee        float64   // entry, toll or what the stop charges
	Refuels    int       // fuel stops on the way or on the circuit day
	RefuelAt   []float64 // m from the start of a road to each of them

	// circuits
	Circuit       string // its name without the day
	Day, Days     int    // first is 1
	Sessions      int
	SessionTime   float64
	Laps          int // hot laps
	LapTime       float64
	Pace          float64
	LeftShare     float64
	HeavyBrakings int
	BySummary     bool
	Reverse       bool // driven the other way round
	WetCircuit    bool // all of it driven in the wet
	TopSpeed      float64
	WheelLifts    bool
	RotorPeak     [2]float64 // C, front and rear, hottest after a braking
	RotorBulk     [2]float64 // C, mean over the hottest session
	PadsTooHot    [2]bool    // that mean is above what the pads take
	FluidPeak     float64    // C

	// stops
	Can  []string
	Stay float64 // s that the car stands there
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
	ID       string // such as tires-rear, hub-LF
	Name     string // such as "rear tires"
	Kind     profiles.Kind
	Part     string // id of the fitted part
	PartName string
	Critical bool    // the safety cap applies
	Caught   float64 // share of crossings caught by the plan's checks

	Points []Point
	After  []Band // set as a whole: share of life left at its worst point, after each leg
	First  int    // index of the point most often first to its limit
	Most   int    // index of the leg that takes most of its life, -1 where none does
	Used   []float64

	Measured   string    // how the starting state is known
	MeasuredOn time.Time // the day of its oldest reading; zero where it is car.yaml\'s
	Driven     float64   // m since that reading, before the trip
	Learned    Learned   // what the logbook teaches of its rates
	Stop       []string  // what was found that forbids driving on it as it is, place by place
	Seen       []string  // what else was found
	Decision   Decision

	// Spreads of the wear rates, one standard deviation of the logarithm: on
	// the road, on a circuit known corner by corner, and what a circuit known
	// by its summary alone adds in quadrature.
	RoadSpread, CircuitSpread, SummarySpread float64
}

// Point is one thing measured on a set: a tread zone, a pad, a rotor face, a hub.
type Point struct {
	Place   string
	Zone    string // inside, middle, outside; "" where there is only one
	Measure Measure
	New     float64
	Start   float64
	Limit   float64
	Margin  float64
	Loss    []float64 // nominal, per leg
	After   []Band    // level after each leg, as the car stands, nothing renewed

	Slow, Fast []float64  // Loss at one spread of pace below and above; nil for the boil margin
	Prior      [2]float64 // nominal wear before the trip that nobody measured, already off Start: road, circuit
	Gauge      float64    // one standard deviation of Start as read; 0 where it was not measured
	Reading    float64    // one standard deviation of a new reading; 0 where none is assumed
	Cap        []float64  // level that the months allow after each leg; nil where time does not count
}

// Band is a projected level with its chances.
type Band struct {
	P5, P50, P95 float64
	PLimit       float64 // chance that the limit was crossed by then
	PMargin      float64 // chance that the margin was crossed by then
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
	Action  Action
	Leg     int     // the stop's leg for RenewAtStop; for Carry the leg before which the spare goes on at the latest, -1 where only if the checks call for it; otherwise -1
	Spare   bool    // renewed before leaving and a second set carried
	POut    float64 // chance of being stopped short, as decided
	PUnsafe float64 // chance of driving across the limit unnoticed, as decided
	PAsIs   float64 // chance that the limit is crossed if nothing is done
	PNeed   float64 // chance that a carried spare is fitted
	Cost    float64 // expected, in the owner's currency
	Labor   float64 // of it, labour
	LifeEnd float64 // median share of life left at the end, as decided
	Shop    bool    // a workshop does the work
	Shelf   int     // sets it takes from the owner's shelf
	Reason  string  // one sentence with its numbers
	Where   string  // where to look: place, zone, or leg
	Next    *Rival  // the best plan without this choice; nil where there is none
	Flip    *Flip   // what would change the answer; nil where nothing near would
}

// Rival is the action a set would get if its chosen one were not to be had.
type Rival struct {
	Action Action
	Leg    int
	Spare  bool
	Extra  float64 // expected cost more, of the whole plan
	POut   float64
}

// Flip is the usage at which another action becomes the better one.
type Flip struct {
	Leg    int     // of the road, or the first day of the circuit visit
	Laps   int     // on that circuit in all; 0 for a road
	Metres float64 // on that road; 0 for a circuit
	Less   bool    // the action changes below that figure, otherwise above it
	Action Action
}

// Assumption is a value the plan leans on that nobody measured on this car.
type Assumption struct {
	What    string
	Value   string
	Tag     string
	Source  string
	Replace string // how to replace it by a measurement
}
