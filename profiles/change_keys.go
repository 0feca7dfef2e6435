package profiles

import (
	"maps"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"example.com/tripwear/profiles/decode"
)

// SetIDs lists the ids of the sets that are on the car.
func (f *Folder) SetIDs() []string {
	var out []string
	for _, s := range Sets() {
		if len(f.on(s)) > 0 {
			out = append(out, s.ID)
		}
	}
	return out
}

func (f *Folder) on(s Set) []Fitted {
	return slices.DeleteFunc(slices.Clone(f.Car.Fitted), func(e Fitted) bool {
		return f.Parts[e.Part].Kind != s.Kind || !slices.ContainsFunc(s.At, func(at string) bool { return slices.Contains(e.At, at) })
	})
}

// ChangeKeys lists the keys of Change that fit the folder and one of its
// trips, sorted. Of what is fitted there are the keys that car.yaml has, and
// of parts those that somebody may want to change: the stock's are left out.
func (f *Folder) ChangeKeys(t Trip) []string {
	var out []string
	for _, at := range alignable {
		out = append(out, "alignment."+at+".camber", "alignment."+at+".toe")
	}
	for _, s := range Sets() {
		on := f.on(s)
		if len(on) == 0 {
			continue
		}
		out = append(out, "fitted."+s.ID)
		for _, e := range on {
			for _, key := range leaves(decode.FieldsIn(&e), "fitted."+s.ID+".", "part", "at") {
				if _, place := cutLast(key); !slices.Contains(wheels, place) || slices.Contains(s.At, place) {
					out = append(out, key)
				}
			}
		}
	}
	for id, p := range f.Parts {
		if !slices.ContainsFunc(slices.Collect(maps.Values(p.Sources)), func(s Source) bool { return s.Tag == decode.Owner }) {
			continue
		}
		out = append(out, "shelf."+id)
		out = append(out, leaves(p.Fields(), "parts."+id+".", "id", "class", "name")...)
	}
	count := map[string]int{}
	for i := range t.Legs {
		leg := &t.Legs[i]
		for _, key := range decode.Keys(leg.Kind.Fields())[1:] {
			count[key]++
			out = append(out, key, key+"."+strconv.Itoa(count[key]), key+"."+slug(leg.Name))
		}
	}
	car, model := f.Car, f.Model
	out = append(out, leaves(decode.FieldsIn(&t), "", "trip", "legs")...)
	out = append(out, leaves(decode.FieldsIn(&model), "")...)
	out = append(out, leaves(decode.FieldsIn(&car), "", "fitted", "shelf", "alignment")...)
	slices.Sort(out)
	return slices.Compact(out)
}

// ChangeValues lists the words that a key takes, or the parts that fit a set;
// most keys take a measure, and have none.
func (f *Folder) ChangeValues(key string) []string {
	id, ok := strings.CutPrefix(key, "fitted.")
	for _, s := range Sets() {
		if ok && s.ID == id {
			return changer{loader: &loader{folder: f}}.ofKind(s.Kind)
		}
	}
	switch first, _, _ := strings.Cut(key, "."); first {
	case "pace":
		return slices.Sorted(maps.Keys(f.Model.Paces))
	case "surface":
		return slices.Sorted(maps.Keys(f.Model.Surfaces))
	case "reverse", "wet":
		return []string{"true", "false"}
	}
	return nil
}

// leaves lists the dotted keys that hold a value, apart from some: of a
// mapping by place or word those that are in it.
func leaves(fields []decode.Field, path string, but ...string) []string {
	var out []string
	for _, f := range fields {
		key := path + f.Key
		switch v := f.Value; {
		case slices.Contains(but, f.Key):
		case v.Kind() == reflect.Map && v.Type().Elem().Kind() != reflect.Struct:
			for _, k := range v.MapKeys() {
				out = append(out, key+"."+k.String())
			}
		case v.Kind() == reflect.Map:
			for _, k := range v.MapKeys() {
				out = append(out, leaves(decode.FieldsOf(v.MapIndex(k)), key+"."+k.String()+".")...)
			}
		case v.Kind() == reflect.Struct && !f.Single():
			out = append(out, leaves(decode.FieldsOf(v), key+".")...)
		default:
			out = append(out, key)
		}
	}
	return out
}
