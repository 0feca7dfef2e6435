package profiles

import (
	"fmt"
	"maps"
	"slices"

	"example.com/tripwear/profiles/nearest"
)

// FindTrip is the trip with an id, or the only one where id is "". Its error
// is Errors and lists the trips.
func (f *Folder) FindTrip(id string) (Trip, error) {
	ids := slices.Sorted(maps.Keys(f.Trips))
	if t, ok := f.Trips[id]; ok {
		return t, nil
	}
	switch {
	case len(ids) == 0:
		return Trip{}, Errors{{What: "the car folder has no trip", Hint: "write one in trips/, such as trips/spring.yaml"}}
	case id != "":
		return Trip{}, Errors{{What: nearest.Unknown("trip", id, ids), Expected: nearest.OneOf(ids)}}
	case len(ids) > 1:
		return Trip{}, Errors{{What: fmt.Sprintf("the car folder has %d trips", len(ids)), Expected: "the name of one: " + nearest.OneOf(ids)}}
	}
	return f.Trips[ids[0]], nil
}
