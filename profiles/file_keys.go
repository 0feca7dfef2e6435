package profiles

import (
	"reflect"
	"slices"

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
		{"car.yaml", accepted(fieldsIn(&Car{}), "", "alignment")},
		{"alignment by wheel", accepted(fieldsIn(&wheelSetting{}), "")},
		{"alignment by axle", accepted(fieldsIn(&axleSetting{}), "")},
		{"each of fitted", accepted(fieldsIn(&Fitted{}), "")},
		{"each of shelf", accepted(fieldsIn(&Spare{}), "")},
		{"each of parts.yaml", accepted(fieldsIn(&Part{}), "")},
	}
	for _, kind := range kinds {
		p := newPart(kind.Kind)
		k := Keys{Of: "and of " + string(kind.Kind)}
		for _, f := range fieldsOf(p.block()) {
			k.Names = append(k.Names, f.key) // the class has them all
		}
		out = append(out, k)
	}
	out = append(out,
		Keys{"circuits/ID.yaml", accepted(fieldsIn(&Circuit{}), "")},
		Keys{"each of corners", accepted(fieldsIn(&Corner{}), "")},
		Keys{"trips/ID.yaml", accepted(fieldsIn(&Trip{}), "")},
	)
	for _, kind := range []LegKind{RoadLeg, CircuitLeg, StopLeg} {
		out = append(out, Keys{"a leg of " + string(kind), append([]string{string(kind) + "*"}, accepted(kind.of(fieldsIn(&Leg{})), "")...)})
	}
	return append(out,
		Keys{"model.yaml", accepted(fieldsIn(&Model{}), "")},
		Keys{"oil/ID.yaml", accepted(fieldsIn(&OilReport{}), "")},
		Keys{"logbook.csv", logbook.Columns},
	)
}

// accepted lists the keys of fields; a word that stands for others is ANY,
// and those apart are not gone into.
func accepted(fields []field, path string, apart ...string) []string {
	var out []string
	for _, f := range fields {
		v, name := f.value, path+f.key
		switch {
		case v.Kind() == reflect.Struct && !slices.Contains(whole, v.Type()) && f.as == "":
			out = append(out, accepted(fieldsOf(v), name+".")...)
			continue
		case v.Kind() == reflect.Map && v.Type().Elem().Kind() == reflect.Struct && !slices.Contains(apart, f.key):
			out = append(out, accepted(fieldsOf(reflect.New(v.Type().Elem()).Elem()), name+".ANY.")...)
			continue
		case v.Kind() == reflect.Map && len(f.words) > 0 && !slices.Contains(f.words, wheels[0]):
			name += ".ANY"
		}
		if f.need {
			name += "*"
		}
		out = append(out, name)
	}
	return out
}
