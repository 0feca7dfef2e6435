package randomcar

import (
	"time"

	"pgregory.net/rapid"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// Departure is the day that a trip of AnyTrip leaves.
var Departure = time.Date(2027, 5, 13, 0, 0, 0, 0, time.UTC)

// Hours is a road that takes so long at 1 m/s.
func Hours(h float64) profiles.Leg {
	return profiles.Leg{Kind: profiles.RoadLeg, Name: "road", Distance: quantity.Length(h * 3600)}
}

// Visit is days on a circuit.
func Visit(days int) profiles.Leg {
	return profiles.Leg{Kind: profiles.CircuitLeg, Name: "oval", Days: days}
}

// Stop is a stay of some hours.
func Stop(h float64) profiles.Leg {
	return profiles.Leg{Kind: profiles.StopLeg, Name: "stop", Stay: quantity.Duration(h * 3600)}
}

// AnyTrip draws a trip of roads, stops and circuits.
func AnyTrip(t *rapid.T) profiles.Trip {
	trip := profiles.Trip{Depart: Departure, DrivingDay: quantity.Duration(rapid.Float64Range(1, 24).Draw(t, "most") * 3600)}
	for range rapid.IntRange(1, 8).Draw(t, "legs") {
		switch rapid.IntRange(0, 2).Draw(t, "kind") {
		case 0:
			trip.Legs = append(trip.Legs, Hours(rapid.Float64Range(0, 60).Draw(t, "hours")))
		case 1:
			trip.Legs = append(trip.Legs, Stop(rapid.Float64Range(0, 100).Draw(t, "stay")))
		case 2:
			trip.Legs = append(trip.Legs, Visit(rapid.IntRange(1, 4).Draw(t, "days")))
		}
	}
	return trip
}
