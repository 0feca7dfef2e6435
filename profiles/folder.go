// Package profiles holds what people write: the car, its parts, the circuits
// and the trips, with strict decoding, defaults and validation. It embeds the
// stock parts and two demo car folders.
package profiles

import (
	"fmt"
	"maps"
	"slices"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/nearest"
)

// Folder is a car folder, checked and complete: every name in it resolves.
type Folder struct {
	Car      Car
	Parts    map[string]Part // by id, stock parts included
	Circuits map[string]Circuit
	Trips    map[string]Trip
	Model    Model
	// Reference is the stock reference lap behind circuits known by their summary.
	Reference  []Corner
	logOf      string          // the logbook's file or sheet
	Log        []logbook.Entry // in the order driven, but for rows taken back; Car is up to date with it
	Torn       string          // a last row of the logbook that was cut off in writing, and counts nowhere
	Evidence   []Evidence      // every row in that order, those taken back too, and what it did
	carDoubted []Evidence      // what car.yaml says and the logbook speaks against

	OilReports []OilReport // oil/*.yaml and oil/*.csv, in the order of sampling
	Rates      []Rates     // of other cars, rates/*.yaml

	asWritten *Car // as car.yaml has it, where the logbook has changed it

	again func(id string) (Circuit, error) // reads a circuit that was let go; nil where none was
	whole map[string]bool                  // the circuits that were not
}

// What reading any file gives beside its values.
type (
	Position = decode.Position
	Error    = decode.Error
	Errors   = decode.Errors
	Source   = decode.Source
	Sources  = decode.Sources
)

// On is the part of a kind at a place of the car, and the entry that put it
// there; a folder without errors has one at each place that needs it.
func (f *Folder) On(k Kind, place string) (Part, *Fitted) {
	i := f.holder(k, place)
	if i < 0 {
		return Part{}, nil
	}
	on := &f.Car.Fitted[i]
	return f.Parts[on.Part], on
}

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

// Clone is a folder that can be changed without the first one noticing.
func (f *Folder) Clone() *Folder {
	out := *f
	out.Parts = make(map[string]Part, len(f.Parts))
	for id, p := range f.Parts {
		out.Parts[id] = p.Clone()
	}
	out.Circuits = maps.Clone(f.Circuits)
	out.Trips = make(map[string]Trip, len(f.Trips))
	for id, t := range f.Trips {
		out.Trips[id] = t.Clone()
	}
	out.Model = f.Model.clone()
	out.OilReports, out.Rates = slices.Clone(f.OilReports), slices.Clone(f.Rates)
	out.Car.Alignment = maps.Clone(f.Car.Alignment)
	out.Car.Shelf = slices.Clone(f.Car.Shelf)
	out.Car.Fitted, out.Car.Aside = cloned(f.Car.Fitted), cloned(f.Car.Aside)
	return &out
}

func cloned(entries []Fitted) []Fitted {
	var out []Fitted
	for _, e := range entries {
		out = append(out, e.Only(e.At))
	}
	return out
}

// Clone is a trip with legs of its own.
func (t Trip) Clone() Trip {
	t.Legs, t.Fit = slices.Clone(t.Legs), maps.Clone(t.Fit)
	for i := range t.Legs {
		t.Legs[i].Can, t.Legs[i].Fit = slices.Clone(t.Legs[i].Can), maps.Clone(t.Legs[i].Fit)
	}
	return t
}
