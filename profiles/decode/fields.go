package decode

import (
	"reflect"
	"slices"
	"strings"
	"time"
	"unicode"

	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/quantity"
)

// Field is a field of a struct with what its tags say of how its key is written
// and what it may hold:
//
//	key:"trip"             the key, where it is not the field's name in snake case; "-" for none
//	need:"yes"             the key must be there
//	safe:"less"            which way its range may be left on the safe side: beyond the other end what is safe would be weakened
//	range:"1 mm to 20 mm"  least and most, of the field or of the items in it
//	words:"rear front all" the words allowed as value, item or map key
//	as:"turn"              another way to write the type: turn, difference, signed, id, grade, size, week, bound,
//	                       or finding, whose words depend on the kind of part
//	from:"kinds"           the struct itself gives the words, see Worded
//	on:"road circuit"      the kinds of leg that have the key
//	was:"colour"           another spelling of the key, read too
//	doc:"today"            what it is, in a few words
//	unknown:"written"      the value may be the word unknown; "absent": it is that too where the key is left out
type Field struct {
	Key      string
	Value    reflect.Value
	Need     bool
	Min, Max string
	Safe     string
	Words    []string
	Each     []string // the words allowed as value of each map key
	As       string
	On       []string
	Unknown  string
	Doc      string

	was string
}

// Worded is a struct that gives the words of its fields, and of what is in them.
type Worded interface {
	Words(key string) (words, each []string)
}

// Keyed is a mapping whose words have different fields.
type Keyed interface {
	Fields(word string) []Field
}

// FieldsOf lists the fields that have keys, of several structs written as one mapping.
func FieldsOf(structs ...reflect.Value) []Field {
	var out []Field
	for _, s := range structs {
		for i := range s.NumField() {
			f := s.Type().Field(i)
			key := f.Tag.Get("key")
			if key == "-" {
				continue
			}
			if key == "" {
				key = Snake(f.Name)
			}
			least, most, _ := strings.Cut(f.Tag.Get("range"), " to ")
			one := Field{
				Key: key, Value: s.Field(i), Need: f.Tag.Get("need") != "",
				Min: least, Max: most, Safe: f.Tag.Get("safe"), Words: strings.Fields(f.Tag.Get("words")),
				As: f.Tag.Get("as"), On: strings.Fields(f.Tag.Get("on")), was: f.Tag.Get("was"), Unknown: f.Tag.Get("unknown"), Doc: f.Tag.Get("doc"),
			}
			if f.Tag.Get("from") != "" {
				one.Words, one.Each = s.Interface().(Worded).Words(key)
			}
			out = append(out, one)
		}
	}
	return out
}

// FieldsIn is FieldsOf for the struct that a pointer leads to.
func FieldsIn(ptr any) []Field { return FieldsOf(reflect.ValueOf(ptr).Elem()) }

// Find is the field with a key, as it is written now or was.
func Find(fields []Field, key string) *Field {
	for i := range fields {
		if fields[i].Key == key || fields[i].was != "" && fields[i].was == key {
			return &fields[i]
		}
	}
	return nil
}

// Except is the fields without those of some keys.
func Except(fields []Field, keys ...string) []Field {
	return slices.DeleteFunc(fields, func(f Field) bool { return slices.Contains(keys, f.Key) })
}

// Keys lists the fields' keys.
func Keys(fields []Field) []string {
	out := make([]string, len(fields))
	for i, f := range fields {
		out[i] = f.Key
	}
	return out
}

// Snake turns a field's name into its key: CGHeight is cg_height.
func Snake(name string) string {
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

var scalarType = reflect.TypeFor[Scalar]()

// Single says whether the field is written as one value.
func (f Field) Single() bool {
	typ := f.Value.Type()
	switch typ.Kind() {
	case reflect.Struct, reflect.Map, reflect.Slice:
		return typ == reflect.TypeFor[time.Time]() || reflect.PointerTo(typ).Implements(scalarType)
	}
	return true
}

// Like is what the field's value looks like, to complete "expected ...".
func (f Field) Like() string {
	switch v := f.Value.Addr().Interface().(type) {
	case *time.Time:
		return "a date such as 2026-04-02"
	case Scalar:
		return v.Like()
	case interface{ Kind() *quantity.Kind }:
		return f.Kind(v.Kind()).Like()
	}
	switch {
	case len(f.Words) > 0 && f.Value.Kind() == reflect.Slice:
		return "a list of " + nearest.OneOf(f.Words)
	case len(f.Words) > 0:
		return nearest.OneOf(f.Words)
	case f.Value.Kind() == reflect.Slice:
		return "a list"
	case f.Value.Kind() == reflect.Struct:
		return "a mapping with the keys " + nearest.List(Keys(FieldsOf(f.Value)))
	case f.Value.Kind() == reflect.Bool:
		return "true or false"
	default:
		return "text"
	}
}
