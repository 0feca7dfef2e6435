package kind

import (
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/brake"
	"example.com/tripwear/wearmodel/duty"
)

// Wear is what a leg, or a day of it, takes from every part, nominal, at one
// pace.
type Wear struct {
	Tread     [4][3]float64 // m: inside, middle, outside
	Pad       [4]float64    // m, at the thinnest end
	Crack     [4]float64    // share of a rotor's life
	Thickness [4]float64    // m
	Hub       [4]float64    // L10 lives
	Oil       float64       // equivalent m
	Peak      [2]float64    // C, rotors front and rear after a braking
	Face      [2]float64    // C, their faces at a braking
	Bulk      [2]float64    // C, their mean over the hottest session
	TooHot    [2]bool       // for the pads

	Meters   float64
	Seconds  float64 // of sessions
	Sessions float64 // each heats it once
	Circuit  bool
	Days     float64    // on circuit
	Ambient  float64    // C
	PadsWorn [4]float64 // how far the pads are used then, 0 new, 1 at the limit
}

// RoadAsk is what a road asks of the car.
type RoadAsk struct {
	Machine
	Model   profiles.Model
	Surface profiles.Surface
	Duty    duty.Duty
	Meters  float64
}

// CircuitAsk is what a day on a circuit asks: hot laps of one duty, and slow
// laps of another in every session.
type CircuitAsk struct {
	Machine
	Model     profiles.Model
	Hot, Slow duty.Duty
	HotLaps   float64 // all day
	SlowLaps  float64
	Sessions  []brake.Session
	Seconds   float64 // of sessions
	Ambient   float64 // C
	PaceSD    float64 // of ln of a pace that a lap time alone tells; 0 otherwise
}

// OnRoad is the wear of a road.
func OnRoad(ask RoadAsk) Wear {
	w := Wear{Meters: ask.Meters}
	for _, k := range All {
		if k.Road != nil {
			k.Road(ask, &w)
		}
	}
	return w
}

// OnCircuit is the wear of a day on a circuit.
func OnCircuit(ask CircuitAsk) Wear {
	w := Wear{
		Circuit: true, Days: 1, Ambient: ask.Ambient, Seconds: ask.Seconds, Sessions: float64(len(ask.Sessions)),
		Meters: float64(ask.HotLaps*ask.Hot.Meters) + float64(ask.SlowLaps*ask.Slow.Meters),
	}
	for _, k := range All {
		if k.Circuit != nil {
			k.Circuit(ask, &w)
		}
	}
	return w
}
