package profiles

import (
	"maps"
	"slices"
)

// Clone is a folder that can be changed without the first one noticing.
func (f *Folder) Clone() *Folder {
	out := *f
	out.Parts = make(map[string]Part, len(f.Parts))
	for id, p := range f.Parts {
		out.Parts[id] = p.clone()
	}
	out.Circuits = maps.Clone(f.Circuits)
	out.Trips = make(map[string]Trip, len(f.Trips))
	for id, t := range f.Trips {
		out.Trips[id] = t.Clone()
	}
	out.Model = f.Model.clone()
	out.OilReports = slices.Clone(f.OilReports)
	out.Car.Alignment = maps.Clone(f.Car.Alignment)
	out.Car.Shelf = slices.Clone(f.Car.Shelf)
	out.Car.Fitted = make([]Fitted, len(f.Car.Fitted))
	for i, e := range f.Car.Fitted {
		out.Car.Fitted[i] = e.clone()
	}
	return &out
}

// Clone is a trip with legs of its own.
func (t Trip) Clone() Trip {
	t.Legs = slices.Clone(t.Legs)
	for i := range t.Legs {
		t.Legs[i].Can = slices.Clone(t.Legs[i].Can)
	}
	return t
}
