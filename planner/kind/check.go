package kind

import (
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// When a check is made, beside the stops with work.
const (
	Before  = "before leaving"
	Fuel    = "at each fuel stop"
	Session = "before each session"
	Night   = "after each circuit day"
	Home    = "back home"
)

// Way is how a check is made.
type Way string

// The ways of a check.
const (
	ByGauge Way = "gauge" // read and written down
	ByEye   Way = "look"
	ByHand  Way = "hand"
)

// Who says of which sets a check is made.
type Who int

// The sets of a check.
const (
	Every     Who = iota
	Watched       // whose decision counts on checks on the way
	Unwatched     // the others
	AtOnce        // every one, in one line that names the likeliest to fail
)

// Check is an inspection that the checklist orders.
type Check struct {
	When  string
	Who   Who
	By    Way
	Reads Measure // what a gauge reads, with what to expect; "" where nothing is read
	Looks Measure // the measure whose worst point is named, where nothing is read
	Say   func(Looked) string
}

// Of says whether a check is made of a set that is watched, or of one that is not.
func (c Check) Of(watched bool) bool {
	switch c.Who {
	case Watched:
		return watched
	case Unwatched:
		return !watched
	case Every, AtOnce:
	}
	return true
}

// Credit is the share of crossings that a check of the kind catches which
// could show them; 0 for a kind whose checks show none.
func (k *Kind) Credit(c profiles.Caught, by Way) float64 {
	if k == nil || k.Caught == nil {
		return 0
	}
	return float64(k.Caught(c, by))
}

// written is the credit of a reading written down, or that of a look.
func written(by Way, gauge, look quantity.Share) quantity.Share {
	if by == ByGauge {
		return gauge
	}
	return look
}

// Looked is what a check's sentence is made of.
type Looked struct {
	Set, Place, Zone string
	Part             profiles.Part
	Life             string // expected back home
	Fail             string // chance to fail on the trip
	Why              string // why this one
	Spare            string // what to do with a spare that is along; "" without one
}
