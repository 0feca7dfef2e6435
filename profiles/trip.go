package profiles

import (
	"time"

	"example.com/tripwear/profiles/quantity"
)

// Trip is an itinerary.
type Trip struct {
	ID     string
	Name   string // key "trip"
	Depart time.Time
	Legs   []Leg
}

// LegKind says what a leg is.
type LegKind string

// The three kinds of leg.
const (
	RoadLeg    LegKind = "road"
	CircuitLeg LegKind = "circuit"
	StopLeg    LegKind = "stop"
)

// Leg is one part of a trip: a road, a circuit or a stop. The key that names it decides the kind.
type Leg struct {
	Kind LegKind
	Name string // of the road or stop; for a circuit its id

	// road
	Distance quantity.Length
	Surface  string // highway (default), mixed, winding, city
	Rain     quantity.Share

	// circuit
	Days     int // 1 unless given
	Sessions Sessions
	Pace     string // novice, intermediate, advanced, expert, or a share such as "80 %"; "" if by lap time

	// stop
	Can  []string          // what can be done there: shop, paddock, parts
	Stay quantity.Duration // how long the car stands there

	Ambient quantity.Temperature // 20 C unless given

	pos Position
}

// Sessions is a circuit day's running, written "5 x 20 min".
type Sessions struct {
	Count int
	Each  quantity.Duration
}
