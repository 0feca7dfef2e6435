package trip

import (
	"math"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/oil"
)

// A liter bottle of oil as packed. Assumed: oil weighs about 0.86 kg/L.
const (
	bottleRoom = 1.2 * kind.Liter // m3
	bottleMass = 0.95             // kg
)

// topUp is the oil (m3) to expect to add on the way, from what the owner sees
// it use.
func topUp(car profiles.Car, legs []plan.Leg, usages []Usage) float64 {
	const perThousandKm = 1e-3 / 1e6 // m3 per m for each liter per 1,000 km
	road, circuit := 0.0, 0.0
	for j, l := range legs {
		switch l.Kind {
		case profiles.RoadLeg:
			road += l.Meters
		case profiles.CircuitLeg:
			circuit += usages[j].Nominal().Oil
		}
	}
	return oil.TopUp(float64(car.OilUse)*perThousandKm, road, circuit)
}

// TopUpRoom is the room (m3, kg) that oil for topping up takes in the trunk.
func TopUpRoom(volume float64) [2]float64 {
	n := math.Ceil(volume/kind.Liter - 1e-9)
	return [2]float64{float64(n * bottleRoom), float64(n * bottleMass)}
}
