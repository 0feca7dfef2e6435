package projection

import (
	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/trip"
)

// hubWear is a usage that takes so much from every hub.
func hubWear(circuit bool, taken float64) trip.Usage {
	u := trip.Usage{Circuit: circuit}
	for i := range u.At {
		u.At[i].Hub = [4]float64{taken, taken, taken, taken}
	}
	return u
}

func ofRF(w *kind.Wear) float64 { return w.Hub[1] }
