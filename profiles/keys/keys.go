// Package keys lists the keys of a car folder's files one by one, the inner
// ones dotted, with what their fields' tags say of each.
package keys

import (
	"reflect"
	"slices"
	"time"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// Key is a key with the mappings around it.
type Key struct {
	Path         string // dotted
	decode.Field        // of a list its items
	List         bool
	ByPlace      bool // it holds a value for each place of the car
}

// Any stands in a path for the words that may stand there.
const Any = "ANY"

// Of lists the keys of fields. Where each is not asked for, Any stands for the
// words of a mapping, and lists of mappings and settings by wheel are a key
// without those in it; else those lists are left out.
func Of(fields []decode.Field, each bool) []Key { return under("", fields, each) }

func under(outer string, fields []decode.Field, each bool) []Key {
	var out []Key
	for _, f := range fields {
		path, typ := decode.Join(outer, f.Key), f.Value.Type()
		keyed, apart := f.Value.Interface().(decode.Keyed)
		item := f
		if k := typ.Kind(); k == reflect.Map || k == reflect.Slice {
			item.Value = reflect.New(typ.Elem()).Elem()
		}
		switch {
		case f.Single(), !each && apart:
			out = append(out, Key{Path: path, Field: f})
		case apart:
			for _, word := range f.Words {
				out = append(out, under(decode.Join(path, word), keyed.Fields(word), each)...)
			}
		case typ.Kind() == reflect.Struct:
			out = append(out, under(path, decode.FieldsOf(f.Value), each)...)
		case typ.Kind() == reflect.Map && slices.Contains(f.Words, logbook.Wheels[0]):
			item.Words = f.Each
			out = append(out, Key{path, listed(item), item.Value.Kind() == reflect.Slice, true})
		case typ.Kind() == reflect.Map && len(f.Words) == 0: // written also as text
			out = append(out, Key{Path: path, Field: item})
		case typ.Kind() == reflect.Map:
			words := f.Words
			if !each {
				words = []string{Any}
			}
			item.Words, item.Need = f.Each, false
			for _, word := range words {
				inner := decode.Join(path, word)
				if item.Single() {
					out = append(out, Key{Path: inner, Field: item})
				} else {
					out = append(out, under(inner, decode.FieldsOf(item.Value), each)...)
				}
			}
		case item.Single():
			out = append(out, Key{Path: path, Field: item, List: true})
		case !each:
			out = append(out, Key{Path: path, Field: f, List: true})
		}
	}
	return out
}

// listed is the field of one item where a field is a list of them.
func listed(f decode.Field) decode.Field {
	if typ := f.Value.Type(); typ.Kind() == reflect.Slice {
		f.Value = reflect.New(typ.Elem()).Elem()
	}
	return f
}

// LogRow says what the columns of the logbook hold.
type LogRow struct {
	Date      time.Time       `need:"yes" doc:"when it was measured or done"`
	Odometer  quantity.Length `need:"yes" range:"0 mi to 2000000 mi" doc:"the car's at that time"`
	What      string          `need:"yes" from:"logbook" doc:"what the row is about"`
	Place     string          `from:"logbook" doc:"where on the car; a tread or a pad has one"`
	Zone      string          `from:"logbook" doc:"of a tread or a probe"`
	Value     string          `doc:"a reading with its unit, a finding, a part, a trip"`
	Confirmed string          `words:"yes" doc:"yes where an odd row is right all the same"`
	Note      string          `doc:"anything worth remembering"`
}

// Words gives a column its words.
func (LogRow) Words(key string) (words, each []string) {
	switch key {
	case "what":
		return append(logbook.Words(), string(logbook.TakenBack)), nil
	case "place":
		return logbook.Places(logbook.Replaced), nil
	}
	return logbook.Zones, nil
}

// Group is the keys of one mapping of a car folder's files.
type Group struct {
	Of   string // the file, and the list in it
	Keys []Key
}

// All lists every key of every file.
func All() []Group {
	var car profiles.Car
	out := []Group{
		{"car.yaml", Of(decode.FieldsIn(&car), false)},
		{"alignment by wheel", Of(car.Alignment.Fields(logbook.Wheels[0]), false)},
		{"alignment by axle", Of(car.Alignment.Fields("front"), false)},
		{"each of fitted", Of(decode.FieldsIn(&profiles.Fitted{}), false)},
		{"each of shelf", Of(decode.FieldsIn(&profiles.Spare{}), false)},
		{"each of parts.yaml", Of(decode.FieldsIn(&profiles.Part{}), false)},
	}
	general := len(decode.FieldsIn(&profiles.Part{}))
	limited := false
	for _, kind := range profiles.Kinds() {
		of := "and of " + string(kind.Kind)
		if kind.Limited != nil {
			if of = "and of limited parts"; limited {
				continue
			}
			limited = true
		}
		own := Of(profiles.PartFields(kind.Kind)[general:], false)
		for i := range own {
			own[i].Need = false // the class has them all
		}
		out = append(out, Group{of, own})
	}
	out = append(out,
		Group{"circuits/ID.yaml", Of(decode.FieldsIn(&profiles.Circuit{}), false)},
		Group{"each of corners", Of(decode.FieldsIn(&profiles.Corner{}), false)},
		Group{"trips/ID.yaml", Of(decode.FieldsIn(&profiles.Trip{}), false)},
	)
	for _, kind := range []profiles.LegKind{profiles.RoadLeg, profiles.CircuitLeg, profiles.StopLeg} {
		out = append(out, Group{"a leg of " + string(kind), Of(kind.Fields(), false)})
	}
	return append(out,
		Group{"model.yaml", Of(decode.FieldsIn(&profiles.Model{}), false)},
		Group{"oil/ID.yaml", Of(decode.FieldsIn(&profiles.OilReport{}), false)},
		Group{"rates/ID.yaml", Of(decode.FieldsIn(&profiles.Rates{}), false)},
		Group{"each of sets", Of(decode.FieldsIn(&profiles.SetRates{}), false)},
		Group{profiles.LogFile, Of(decode.FieldsIn(&LogRow{}), false)},
	)
}
