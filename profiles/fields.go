package profiles

import (
	"reflect"
	"slices"
	"strings"
	"unicode"
)

// A field's tags say how its key is written and what it may hold:
//
//	key:"trip"             the key, where it is not the field's name in snake case; "-" for none
//	need:"yes"             the key must be there
//	range:"1 mm to 20 mm"  least and most, of the field or of the items in it
//	words:"rear front all" the words allowed as value, item or map key
//	as:"turn"              another way to write the type: turn, difference, signed, id, grade, week, bound,
//	                       or finding, whose words depend on the kind of part
//	from:"kinds"           words and each are those of the kinds of part that have the key
//	on:"road circuit"      the kinds of leg that have the key
//	was:"colour"           an earlier spelling of the key, still read
//	unknown:"written"      the value may be the word unknown; "absent": it is that too where the key is left out
type field struct {
	key      string
	value    reflect.Value
	need     bool
	min, max string
	words    []string
	each     []string // the words allowed as value of each map key
	as       string
	on       []string
	was      string
	unknown  string
}

// fieldsOf lists the fields that have keys, of several structs written as one mapping.
func fieldsOf(structs ...reflect.Value) []field {
	var out []field
	for _, s := range structs {
		for i := range s.NumField() {
			f := s.Type().Field(i)
			key := f.Tag.Get("key")
			if key == "-" {
				continue
			}
			if key == "" {
				key = snake(f.Name)
			}
			least, most, _ := strings.Cut(f.Tag.Get("range"), " to ")
			one := field{
				key: key, value: s.Field(i), need: f.Tag.Get("need") != "",
				min: least, max: most, words: strings.Fields(f.Tag.Get("words")),
				as: f.Tag.Get("as"), on: strings.Fields(f.Tag.Get("on")), was: f.Tag.Get("was"), unknown: f.Tag.Get("unknown"),
			}
			if f.Tag.Get("from") == "kinds" {
				one.fromKinds()
			}
			out = append(out, one)
		}
	}
	return out
}

// fieldsIn is fieldsOf for the struct that a pointer leads to.
func fieldsIn(ptr any) []field { return fieldsOf(reflect.ValueOf(ptr).Elem()) }

// except is the fields without those of some keys.
func except(fields []field, keys ...string) []field {
	return slices.DeleteFunc(fields, func(f field) bool { return slices.Contains(keys, f.key) })
}

// of is the fields that a kind of leg has.
func (k LegKind) of(fields []field) []field {
	return slices.DeleteFunc(fields, func(f field) bool { return !slices.Contains(f.on, string(k)) })
}

func keys(fields []field) []string {
	out := make([]string, len(fields))
	for i, f := range fields {
		out[i] = f.key
	}
	return out
}

// snake turns a field's name into its key: CGHeight is cg_height.
func snake(name string) string {
	var b strings.Builder
	r := []rune(name)
	for i, c := range r {
		word := i > 0 && unicode.IsUpper(c) && (unicode.IsLower(r[i-1]) || i+1 < len(r) && unicode.IsLower(r[i+1]))
		if word {
			b.WriteByte('_')
		}
		b.WriteRune(unicode.ToLower(c))
	}
	return b.String()
}
