package projection

import (
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/wearmodel/reliability"
)

// Belief is what is believed of the logs of a set's two rates.
type Belief struct {
	Road, Circuit     float64 // means
	RoadSD, CircuitSD float64
	Correlation       float64
	Learned           plan.Learned
}

// Posterior is what the logbook teaches of the car's parts: all that a plan
// takes from it.
type Posterior struct {
	Sets    map[string]Belief            // by id of the set
	Hubs    map[string]reliability.Scale // by id of the set, where there is a history
	Instead map[string]Misreading        // by profiles.SeenKey, where the last reading is misread
}

// Misreading is a last reading that the others contradict, and the one to go
// by instead.
type Misreading struct {
	Odometer  float64
	Date      time.Time
	Sound     float64 // level
	SoundAt   float64 // odometer
	SoundDate time.Time
}
