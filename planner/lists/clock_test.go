package lists

import (
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

var (
	departure = randomcar.Departure
	hours     = randomcar.Hours
	anyTrip   = randomcar.AnyTrip
)

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
