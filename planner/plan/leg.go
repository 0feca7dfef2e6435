package plan

import (
	"time"

	"example.com/tripwear/profiles"
)

// Day is one day of the trip.
type Day struct {
	Date    time.Time `json:"date"`    // zero where the trip has no date
	Driving float64   `json:"driving"` // h on the road; on a circuit none
	Legs    []int     `json:"legs"`    // the legs that the day has a part in
	Night   bool      `json:"night"`   // the night after it is spent away
}

// Leg is one leg of the trip as it will be driven. A circuit visit of several
// days is one leg a day, so that the second day can be judged by itself.
type Leg struct {
	Kind     profiles.LegKind `json:"kind"`
	Name     string           `json:"name"`
	Surface  string           `json:"surface"`
	Meters   float64          `json:"metres"`    // driven, circuit laps included
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
	Laps          float64    `json:"laps"` // hot laps, the last of a session perhaps a part of one
	LapTime       float64    `json:"lap_time"`
	Pace          float64    `json:"pace"`
	LeftShare     float64    `json:"left_share"`
	HeavyBrakings int        `json:"heavy_brakings"`
	BySummary     bool       `json:"by_summary"`
	Told          *Told      `json:"told"`        // where a lap time alone tells pace and circuit
	Reverse       bool       `json:"reverse"`     // driven the other way round
	WetCircuit    bool       `json:"wet_circuit"` // all of it driven in the wet
	TopSpeed      float64    `json:"top_speed"`
	WheelLifts    bool       `json:"wheel_lifts"`
	RotorPeak     [2]float64 `json:"rotor_peak"`   // C, front and rear, hottest after a braking
	RotorFace     [2]float64 `json:"rotor_face"`   // C, to which their faces flash at a braking
	RotorBulk     [2]float64 `json:"rotor_bulk"`   // C, mean over the hottest session
	PadsTooHot    [2]bool    `json:"pads_too_hot"` // that mean is above what the pads take
	FluidPeak     float64    `json:"fluid_peak"`   // C

	Fit map[string]string `json:"-"` // where sets swap, the part that is on, by the id of its set

	// stops
	Can  []string `json:"can"`
	Stay float64  `json:"stay"` // s that the car stands there
}
