package planner

import (
	"fmt"
	"sync"

	"example.com/tripwear/profiles"
)

// itinerary works out what every leg does to the car. A circuit visit becomes
// one leg a day.
func itinerary(m machine, f *profiles.Folder, trip profiles.Trip) (stages, error) {
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
			results[i].leg = Leg{Kind: leg.Kind, Name: leg.Name, Can: leg.Can, Stay: float64(leg.Stay), Ambient: float64(leg.Ambient)}
		}
	}
	wg.Wait()

	s := stages{clock: newClock(trip, f.Model)}
	for i, r := range results {
		if r.err != nil {
			return stages{}, r.err
		}
		fuelFor(&r.leg, f.Car)
		r.leg.Fee = float64(trip.Legs[i].Fee)
		if err := s.stage(trip.Legs[i], r.leg, r.usage); err != nil {
			return stages{}, err
		}
	}
	refuel(s.legs, float64(f.Car.Fuel.Tank))
	return s, nil
}

// stages is the trip as it will be driven, day by day.
type stages struct {
	*clock
	legs   []Leg
	usages []usage
}

// stage adds a leg of the trip; a circuit visit adds one a day, the first of
// which pays the fee.
func (s *stages) stage(leg profiles.Leg, l Leg, u usage) error {
	switch leg.Kind {
	case profiles.RoadLeg:
		s.add(l, u, func(j int) { s.drive(j, l.Hours) })
		return nil
	case profiles.StopLeg:
		s.add(l, u, func(j int) { s.stand(j, float64(leg.Stay)/3600) })
		return nil
	}
	evening := s.day
	waits, err := s.reach(leg)
	if err != nil {
		return err
	}
	for d := range leg.Days {
		one := l
		if l.Days > 1 {
			one.Name = fmt.Sprintf("%s day %d", l.Circuit, d+1)
		}
		one.Day = d + 1
		if d > 0 {
			one.Fee = 0
		}
		s.add(one, u, s.circuit)
		if d == 0 {
			first := &s.legs[len(s.legs)-1]
			first.Waits, first.Nights = waits, s.day-evening
		}
	}
	return nil
}

// add lets the clock run over a leg.
func (s *stages) add(l Leg, u usage, run func(j int)) {
	j, before := len(s.legs), s.day
	s.start = s.date()
	run(j)
	l.Start, l.End, l.EndDay, l.Nights = s.start, s.date(), s.now(), s.day-before
	s.legs, s.usages = append(s.legs, l), append(s.usages, u)
}
