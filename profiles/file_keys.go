package profiles

import (
	"reflect"
	"slices"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/logbook"
)

// Keys are the keys of one mapping of a car folder's files, as the readers
// accept them; of the mappings inside it too, dotted, unless they are lists.
// What must be there ends in a star.
type Keys struct {
	Of    string // the file, and the list in it
	Names []string
}

// FileKeys lists every key of every file.
func FileKeys() []Keys {
	out := []Keys{
		{"car.yaml", accepted(decode.FieldsIn(&Car{}), "", "alignment")},
		{"alignment by wheel", accepted(decode.FieldsIn(&wheelSetting{}), "")},
		{"alignment by axle", accepted(decode.FieldsIn(&axleSetting{}), "")},
		{"each of fitted", accepted(decode.FieldsIn(&Fitted{}), "")},
		{"each of shelf", accepted(decode.FieldsIn(&Spare{}), "")},
		{"each of parts.yaml", accepted(decode.FieldsIn(&Part{}), "")},
	}
	for _, kind := range kinds {
		p := newPart(kind.Kind)
		k := Keys{Of: "and of " + string(kind.Kind)}
		for _, f := range decode.FieldsOf(p.block()) {
			k.Names = append(k.Names, f.Key) // the class has them all
		}
		out = append(out, k)
	}
	out = append(out,
		Keys{"circuits/ID.yaml", accepted(decode.FieldsIn(&Circuit{}), "")},
		Keys{"each of corners", accepted(decode.FieldsIn(&Corner{}), "")},
		Keys{"trips/ID.yaml", accepted(decode.FieldsIn(&Trip{}), "")},
	)
	for _, kind := range []LegKind{RoadLeg, CircuitLeg, StopLeg} {
		out = append(out, Keys{"a leg of " + string(kind), append([]string{string(kind) + "*"}, accepted(kind.of(decode.FieldsIn(&Leg{})), "")...)})
	}
	return append(out,
		Keys{"model.yaml", accepted(decode.FieldsIn(&Model{}), "")},
		Keys{"oil/ID.yaml", accepted(decode.FieldsIn(&OilReport{}), "")},
		Keys{"logbook.csv", logbook.Columns},
	)
}

// accepted lists the keys of fields; a word that stands for others is ANY,
// and those apart are not gone into.
func accepted(fields []decode.Field, path string, apart ...string) []string {
	var out []string
	for _, f := range fields {
		v, name := f.Value, path+f.Key
		switch {
		case v.Kind() == reflect.Struct && !f.Single():
			out = append(out, accepted(decode.FieldsOf(v), name+".")...)
			continue
		case v.Kind() == reflect.Map && v.Type().Elem().Kind() == reflect.Struct && !slices.Contains(apart, f.Key):
			out = append(out, accepted(decode.FieldsOf(reflect.New(v.Type().Elem()).Elem()), name+".ANY.")...)
			continue
		case v.Kind() == reflect.Map && len(f.Words) > 0 && !slices.Contains(f.Words, wheels[0]):
			name += ".ANY"
		}
		if f.Need {
			name += "*"
		}
		out = append(out, name)
	}
	return out
}
