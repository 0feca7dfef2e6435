package planner

import (
	"errors"
	"maps"
	"slices"
	"time"

	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

// Check drives every circuit of the folder for a day and walks every trip, and
// reports all that a plan would refuse, with file and line.
func Check(f *profiles.Folder) error {
	var all profiles.Errors
	refuse := func(at profiles.Position, err error) {
		if err == nil {
			return
		}
		var bad profiles.Errors
		if errors.As(err, &bad) {
			all = append(all, bad...)
			return
		}
		all = append(all, &profiles.Error{Position: at, What: "cannot be driven: " + err.Error(), Hint: "change its corners, its lap_time, its pace or its sessions"})
	}
	m := trip.NewMachine(f)
	undriven := map[string]bool{}
	for _, id := range slices.Sorted(maps.Keys(f.Circuits)) {
		c := f.Circuits[id]
		outing, err := trip.Weekend(f, id, time.Time{})
		if err == nil {
			_, err = trip.Views(m, f, outing)
		}
		if err == nil {
			_, err = trip.Itinerary(m, f, outing)
		}
		undriven[id] = err != nil
		refuse(c.At(), err)
	}
	for _, id := range slices.Sorted(maps.Keys(f.Trips)) {
		outing := f.Trips[id]
		for _, leg := range outing.Legs {
			if leg.Kind != profiles.CircuitLeg || undriven[leg.Name] {
				continue
			}
			alone := outing
			alone.Legs = []profiles.Leg{leg}
			_, err := trip.Itinerary(m, f, alone)
			refuse(leg.At, err)
		}
	}
	if len(all) > 0 {
		return all
	}
	for _, id := range slices.Sorted(maps.Keys(f.Trips)) { // and with its roads, stops and dates
		_, err := undecided(m, f, f.Trips[id], Options{}.orDefault())
		refuse(profiles.Position{File: "trips/" + id + ".yaml", Line: 1, Column: 1}, err)
	}
	if len(all) > 0 {
		return all
	}
	return nil
}
