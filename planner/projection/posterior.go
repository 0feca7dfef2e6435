package projection

import (
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/wearmodel/reliability"
)

// RatePosterior is the posterior of the logs of a set's road and circuit rates,
// as multiples of the model's.
type RatePosterior struct {
	Road, Circuit     float64 // means
	RoadSD, CircuitSD float64
	Correlation       float64 // -1 to 1
	Learned           plan.Learned
}

// Posterior is all that a plan takes from the logbook.
type Posterior struct {
	Sets     map[string]RatePosterior     // by id of the set
	Hubs     map[string]reliability.Scale // by id of the set, where there is a history
	Outliers map[string]Outlier           // by profiles.SeenKey, where the last reading is one
}

// Outlier is a last reading that the others contradict, and the level that is
// used instead of it.
type Outlier struct {
	Odometer     float64 // m
	Date         time.Time
	Used         float64 // level of an earlier reading, or of the new part
	UsedOdometer float64 // m
	UsedDate     time.Time
}
