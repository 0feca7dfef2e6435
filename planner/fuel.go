package planner

import (
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/duty"
)

// Fuel on a circuit follows from the energy at the wheels.
const (
	engineEfficiency = 0.28   // brake thermal efficiency of a gasoline engine worked hard; engineering choice
	gasolineEnergy   = 32.2e9 // J per m3, lower heating value of gasoline; common handbook value, from memory
)

// fuelPerLap is the fuel (m3) that a lap burns.
func fuelPerLap(d duty.Duty) float64 {
	return d.DriveEnergy / (drivelineShare * engineEfficiency * gasolineEnergy)
}

// fuelFor completes a leg's fuel and the tanks it takes.
func fuelFor(l *Leg, car profiles.Car) {
	if l.Kind == profiles.RoadLeg && car.Fuel.Road > 0 {
		l.FuelUsed = l.Metres / float64(car.Fuel.Road)
	}
	if car.Fuel.Tank > 0 {
		l.Tanks = l.FuelUsed / float64(car.Fuel.Tank)
	}
}
