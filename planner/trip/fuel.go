package trip

import (
	"math"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/duty"
)

// Fuel on a circuit follows from the energy at the wheels.
const (
	engineEfficiency = 0.28   // brake thermal efficiency of a gasoline engine worked hard; engineering choice
	gasolineEnergy   = 32.2e9 // J per m3, lower heating value of gasoline; common handbook value, from memory
	reserve          = 0.10   // share of the tank that is not planned to be used; assumed
)

// fuelPerLap is the fuel (m3) that a lap burns.
func fuelPerLap(d duty.Duty) float64 {
	return d.DriveEnergy / (kind.DrivelineShare * engineEfficiency * gasolineEnergy)
}

// fuelFor completes a leg's fuel and the tanks it takes.
func fuelFor(l *plan.Leg, car profiles.Car) {
	if l.Kind == profiles.RoadLeg && car.Fuel.Road > 0 {
		l.FuelUsed = l.Meters / float64(car.Fuel.Road)
	}
	if car.Fuel.Tank > 0 {
		l.Tanks = l.FuelUsed / float64(car.Fuel.Tank)
	}
}

// refuel puts the fuel stops on the legs: full at departure, and again
// whenever the tank is down to its reserve. On a road the stops have their
// distance from its start; on a circuit day they fall before or between
// sessions.
func refuel(legs []plan.Leg, tank float64) {
	usable := (1 - reserve) * tank
	if usable <= 0 {
		return
	}
	left := usable
	for j := range legs {
		l := &legs[j]
		if l.FuelUsed > left {
			l.Refuels = int(math.Ceil((l.FuelUsed - left) / usable))
		}
		for k := range l.Refuels {
			if l.Kind == profiles.RoadLeg {
				l.RefuelAt = append(l.RefuelAt, l.Meters*(left+float64(float64(k)*usable))/l.FuelUsed)
			}
		}
		left += float64(float64(l.Refuels)*usable) - l.FuelUsed
	}
}

// WetShare is the share of the road that is expected to be wet.
func WetShare(legs []plan.Leg) float64 {
	wet, road := 0.0, 0.0
	for _, l := range legs {
		if l.Kind == profiles.RoadLeg {
			wet += float64(l.Rain * l.Meters)
			road += l.Meters
		}
	}
	if road == 0 {
		return 0
	}
	return wet / road
}
