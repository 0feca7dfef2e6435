package lists

import (
	"time"

	"pgregory.net/rapid"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

var departure = time.Date(2027, 5, 13, 0, 0, 0, 0, time.UTC)

// driven sends a trip through the clock alone: road legs give their hours as
// they are, on a car that does 1 m/s.
func driven(outing profiles.Trip) (trip.Stages, error) {
	var model profiles.Model
	model.Session.DayHours = 9 * 3600
	s := trip.Stages{Clock: trip.NewClock(outing, model)}
	for _, leg := range outing.Legs {
		l := plan.Leg{Kind: leg.Kind, Name: leg.Name, Meters: float64(leg.Distance), Hours: float64(leg.Distance) / 3600, Fee: float64(leg.Fee)}
		if leg.Kind == profiles.CircuitLeg {
			l.Circuit, l.Days = leg.Name, leg.Days
		}
		if err := s.Stage(leg, l, trip.Usage{}); err != nil {
			return s, err
		}
	}
	return s, nil
}

func hours(h float64) profiles.Leg {
	return profiles.Leg{Kind: profiles.RoadLeg, Name: "road", Distance: quantity.Length(h * 3600)}
}

func visit(days int) profiles.Leg {
	return profiles.Leg{Kind: profiles.CircuitLeg, Name: "oval", Days: days}
}

func stop(h float64) profiles.Leg {
	return profiles.Leg{Kind: profiles.StopLeg, Name: "stop", Stay: quantity.Duration(h * 3600)}
}

// anyTrip draws a trip of roads, stops and circuits.
func anyTrip(t *rapid.T) profiles.Trip {
	trip := profiles.Trip{Depart: departure, DrivingDay: quantity.Duration(rapid.Float64Range(1, 24).Draw(t, "most") * 3600)}
	for range rapid.IntRange(1, 8).Draw(t, "legs") {
		switch rapid.IntRange(0, 2).Draw(t, "kind") {
		case 0:
			trip.Legs = append(trip.Legs, hours(rapid.Float64Range(0, 60).Draw(t, "hours")))
		case 1:
			trip.Legs = append(trip.Legs, stop(rapid.Float64Range(0, 100).Draw(t, "stay")))
		default:
			trip.Legs = append(trip.Legs, visit(rapid.IntRange(1, 4).Draw(t, "days")))
		}
	}
	return trip
}
