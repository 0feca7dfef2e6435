// Package profiles holds what people write: the car, its parts, the circuits
// and the trips, with strict decoding, defaults and validation. It embeds the
// stock parts and two demo car folders.
package profiles

import (
	"example.com/tripwear/profiles/logbook"
)

// Folder is a car folder, checked and complete: every name in it resolves.
type Folder struct {
	Car      Car
	Parts    map[string]Part // by id, stock parts included
	Circuits map[string]Circuit
	Trips    map[string]Trip
	Model    Model
	// Reference is the stock reference lap behind circuits known by their summary.
	Reference []Corner
	Log       []logbook.Entry // in the order driven; Car has heard it already
	Torn      string          // a last row of the logbook that was cut off in writing; nothing else has heard it

	OilReports []OilReport // oil/*.yaml and oil/*.csv, in the order of sampling

	asWritten *Car // as car.yaml has it, where the logbook has changed it
}

// Position is a place in a file.
type Position struct {
	File         string
	Line, Column int
}

// Source says where a value came from.
type Source struct {
	Value string // as written
	Tag   string // published, common practice, from memory, engineering choice, owner
	Text  string // the source in words
	Position
}

// Sources maps the key of a value (dotted path inside its item) to its source.
type Sources map[string]Source
