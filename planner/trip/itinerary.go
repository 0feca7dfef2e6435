package trip

import (
	"fmt"
	"sync"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
)

// Itinerary works out what every leg does to the car. A circuit visit becomes
// one leg a day.
func Itinerary(m Machine, f *profiles.Folder, trip profiles.Trip) (Stages, error) {
	type result struct {
		leg   plan.Leg
		usage Usage
		err   error
	}
	results := make([]result, len(trip.Legs))
	var wg sync.WaitGroup
	for i, leg := range trip.Legs {
		m, f := m.wearing(f, outfitOf(trip, leg))
		switch leg.Kind {
		case profiles.RoadLeg:
			results[i].usage, results[i].leg = RoadUsage(m, f.Model, leg)
		case profiles.CircuitLeg:
			wg.Go(func() { results[i].usage, results[i].leg, results[i].err = circuitUsage(m, f, leg) })
		case profiles.StopLeg:
			results[i].leg = plan.Leg{Kind: leg.Kind, Name: leg.Name, Can: leg.Can, Stay: float64(leg.Stay), Ambient: float64(leg.Ambient)}
		}
	}
	wg.Wait()

	s := Stages{Clock: NewClock(trip, f.Model)}
	for i, r := range results {
		if r.err != nil {
			return Stages{}, r.err
		}
		fuelFor(&r.leg, f.Car)
		r.leg.Fee, r.leg.Fit = float64(trip.Legs[i].Fee), outfitOf(trip, trip.Legs[i])
		if err := s.Stage(trip.Legs[i], r.leg, r.usage); err != nil {
			return Stages{}, err
		}
	}
	refuel(s.Legs, float64(f.Car.Fuel.Tank))
	return s, nil
}

// Stages is the trip as it will be driven, day by day.
type Stages struct {
	*Clock
	Legs   []plan.Leg
	Usages []Usage
	asked  []profiles.Leg // the trip's leg that each is of
	visits int
}

// Stage adds a leg of the trip; a circuit visit adds one a day, and the first
// pays the fee.
func (s *Stages) Stage(leg profiles.Leg, l plan.Leg, u Usage) error {
	switch leg.Kind {
	case profiles.RoadLeg:
		s.add(leg, l, u, func(j int) { s.drive(j, l.Hours) })
		return nil
	case profiles.StopLeg:
		s.add(leg, l, u, func(j int) {
			s.opens(leg.Open.Spans, float64(leg.Stay)/3600)
			s.stand(j, float64(leg.Stay)/3600)
		})
		return nil
	}
	evening := s.day
	s.visits++
	u.Visit = s.visits
	waits, err := s.waitFor(leg)
	if err != nil {
		return err
	}
	for d := range leg.Days {
		one := l
		one.Day = leg.Gone + d + 1
		if l.Days > 1 {
			one.Name = fmt.Sprintf("%s day %d", l.Circuit, one.Day)
		}
		if d > 0 {
			one.Fee = 0
		}
		s.add(leg, one, u, s.circuit)
		if d == 0 {
			first := &s.Legs[len(s.Legs)-1]
			first.Waits, first.Nights = waits, s.day-evening
		}
	}
	return nil
}

// add lets the clock run over a leg.
func (s *Stages) add(leg profiles.Leg, l plan.Leg, u Usage, run func(j int)) {
	j, before := len(s.Legs), s.day
	s.start = s.date()
	run(j)
	l.Start, l.End, l.EndDay, l.Nights = s.start, s.date(), s.now(), s.day-before
	s.Legs, s.Usages, s.asked = append(s.Legs, l), append(s.Usages, u), append(s.asked, leg)
}
