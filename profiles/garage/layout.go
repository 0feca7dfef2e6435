// Package garage is a car folder in one workbook that its owner edits in any
// spreadsheet program. Sheets are plain tables, their headings the keys of the
// files of a folder; what stands in a row comes back as the document that a
// file would hold, each value with its cell, and is read and checked as that.
package garage

import (
	"reflect"
	"slices"
	"strings"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/keys"
	"example.com/tripwear/profiles/logbook"
)

// The sheets of a garage, and one of words that its drop-downs offer.
const (
	carSheet      = "Car"
	fittedSheet   = "Fitted"
	partsSheet    = "Parts"
	circuitsSheet = "Circuits"
	cornersSheet  = "Corners"
	tripsSheet    = "Trips"
	shelfSheet    = "Shelf"
	logSheet      = "Logbook"
	oilSheet      = "Oil reports"
	modelSheet    = "Model"
	wordsSheet    = "Words"
)

// Columns that no key of a file stands for, and the kind of a row that is a
// trip's own.
const (
	idKey      = "id"
	circuitKey = "circuit"
	numberKey  = "corner"
	tripKey    = "trip"
	legKey     = "leg"
	kindKey    = "kind"
	nameKey    = "name"
	tripKind   = "trip"

	whatKey = "what" // of the sheets with one value a line
	unitKey = "unit" // of the column before it, in each row
	noteKey = "note" // the owner's own, as is all that begins so
)

// layout is how a sheet is laid out.
type layout struct {
	name  string
	keys  []keys.Key
	lines bool                  // one value a line: what, value, unit
	shy   func(key string) bool // columns that only those who use them see; nil: none
}

// own is a column of the sheet's own.
func own(path, doc string, need bool, words ...string) keys.Key {
	text := reflect.New(reflect.TypeFor[string]()).Elem()
	return keys.Key{Path: path, Field: decode.Field{Key: path, Value: text, Need: need, Doc: doc, Words: words}}
}

// layouts are the sheets in their order.
func layouts() []layout {
	var car profiles.Car
	return []layout{
		{name: carSheet, lines: true, keys: keys.Of(decode.FieldsIn(&car), true), shy: func(key string) bool { return strings.HasPrefix(key, "alignment.") }},
		{name: fittedSheet, keys: fittedKeys()},
		{name: partsSheet, keys: partKeys(""), shy: func(key string) bool { return !slices.ContainsFunc(partKeys("none"), named(key)) }},
		{name: circuitsSheet, keys: slices.Insert(keys.Of(decode.FieldsIn(&profiles.Circuit{}), true), 0, own(idKey, "the name that trips call it by", true))},
		{name: cornersSheet, keys: slices.Insert(
			keys.Of(decode.FieldsIn(&profiles.Corner{}), true), 0,
			own(circuitKey, "its id on the sheet Circuits", true), own(numberKey, "its number, from 1; left out, the order of the rows", false),
		)},
		{name: tripsSheet, keys: tripKeys()},
		{name: shelfSheet, keys: keys.Of(decode.FieldsIn(&profiles.Spare{}), true)},
		{name: logSheet, keys: keys.Of(decode.FieldsIn(&keys.LogRow{}), true)},
		{name: oilSheet, keys: slices.Insert(keys.Of(decode.FieldsIn(&profiles.OilReport{}), true), 0, own(idKey, "the report's name", true))},
		{name: modelSheet, lines: true, keys: keys.Of(decode.FieldsIn(&profiles.Model{}), true), shy: func(string) bool { return true }},
	}
}

func named(path string) func(keys.Key) bool {
	return func(k keys.Key) bool { return k.Path == path }
}

// fittedKeys are those of an item of fitted, whose row is about one place; what
// has three zones there has a column for each.
func fittedKeys() []keys.Key {
	var out []keys.Key
	for _, k := range keys.Of(decode.FieldsIn(&profiles.Fitted{}), true) {
		if !k.ByPlace || !k.List {
			out = append(out, k)
			continue
		}
		k.List = false
		for _, zone := range logbook.Zones {
			one := k
			one.Path = decode.Join(k.Path, zone)
			out = append(out, one)
		}
	}
	return out
}

// partKeys are the keys of the parts of a class; of every kind where the class
// is "", of none where it is unknown.
func partKeys(class string) []keys.Key {
	general := len(decode.FieldsIn(&profiles.Part{}))
	var out []keys.Key
	for _, kind := range profiles.Kinds() {
		fields := profiles.PartFields(kind.Kind)
		if class != "" && kind.Kind != profiles.KindOf(class) {
			fields = fields[:general]
		}
		for _, k := range keys.Of(fields, true) {
			k.Need = k.Path == idKey || k.Path == "class" // the class has the rest
			if !slices.ContainsFunc(out, named(k.Path)) {
				out = append(out, k)
			}
		}
	}
	return out
}

// tripKeys are those of a trip's own row and of its legs'.
func tripKeys() []keys.Key {
	kinds := []string{tripKind}
	for _, k := range legKinds {
		kinds = append(kinds, string(k))
	}
	out := []keys.Key{
		own(tripKey, "the name that commands call it by; the same in each of its rows", true),
		own(legKey, "of the trip, from 1; left out, the order of the rows", false),
		own(kindKey, "trip in the first row, with its name and the day it leaves", true, kinds...),
		own(nameKey, "of the trip, the road or the stop; of a circuit its id", true),
	}
	for _, k := range keys.Of(decode.FieldsIn(&profiles.Trip{}), true) {
		if k.Path != tripKey {
			k.Doc, k.Need = strings.TrimSpace(k.Doc+" (in the row of the trip)"), false
			out = append(out, k)
		}
	}
	for _, k := range keys.Of(decode.FieldsIn(&profiles.Leg{}), true) {
		if k.Need = false; slices.ContainsFunc(out, named(k.Path)) {
			continue // a trip says it for all its legs
		}
		k.Doc = strings.TrimSpace(k.Doc + " (of a " + strings.Join(k.On, ", ") + ")")
		out = append(out, k)
	}
	return out
}

var legKinds = []profiles.LegKind{profiles.RoadLeg, profiles.CircuitLeg, profiles.StopLeg}

// heading is a key as people read it.
func heading(path string) string { return strings.NewReplacer("_", " ", ".", " ").Replace(path) }
