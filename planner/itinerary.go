package planner

import (
	"fmt"
	"math"
	"sync"

	"example.com/tripwear/profiles"
)

// itinerary works out what every leg does to the car. A circuit visit becomes
// one leg a day.
func itinerary(m machine, f *profiles.Folder, trip profiles.Trip) ([]Leg, []usage, error) {
	type result struct {
		leg   Leg
		usage usage
		err   error
	}
	results := make([]result, len(trip.Legs))
	var wg sync.WaitGroup
	for i, leg := range trip.Legs {
		switch leg.Kind {
		case profiles.RoadLeg:
			results[i].usage, results[i].leg = roadUsage(m, f.Model, leg)
		case profiles.CircuitLeg:
			wg.Go(func() { results[i].usage, results[i].leg, results[i].err = circuitUsage(m, f, leg) })
		default:
			results[i].leg = Leg{Kind: leg.Kind, Name: leg.Name, Can: leg.Can, Ambient: float64(leg.Ambient)}
		}
	}
	wg.Wait()

	var legs []Leg
	var usages []usage
	days := 0.0
	for i, r := range results {
		if r.err != nil {
			return nil, nil, r.err
		}
		fuelFor(&r.leg, f.Car)
		if trip.Legs[i].Kind != profiles.CircuitLeg {
			days += duration(r.leg, trip.Legs[i], f.Model)
			r.leg.EndDay = days
			legs, usages = append(legs, r.leg), append(usages, r.usage)
			continue
		}
		days = math.Ceil(days) // a circuit day starts in the morning
		for d := range trip.Legs[i].Days {
			l := r.leg
			if l.Days > 1 {
				l.Name = fmt.Sprintf("%s day %d", l.Circuit, d+1)
			}
			days++
			l.Day, l.EndDay = d+1, days
			legs, usages = append(legs, l), append(usages, r.usage)
		}
	}
	return legs, usages, nil
}

// duration is how many days a road leg or a stop takes.
func duration(l Leg, leg profiles.Leg, model profiles.Model) float64 {
	if leg.Kind == profiles.StopLeg {
		return float64(leg.Stay) / day.Seconds()
	}
	return l.Hours / (float64(model.Session.DayHours) / 3600)
}
