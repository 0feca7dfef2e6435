package planner

import (
	"cmp"
	"fmt"
	"reflect"
	"strings"
	"time"

	"example.com/tripwear/planner/plan"
)

// listed is a value as list writes it; a text is listed already.
func listed(v any) string {
	if text, ok := v.(string); ok {
		return text
	}
	var out strings.Builder
	list(&out, "", reflect.ValueOf(v))
	return out.String()
}

// list writes a line for every value of a list and one for the whole, each with
// what is not zero in it, what it holds beside lists included, figures to four
// digits. A list of nothing but a few numbers is written in columns on the line
// of its owner. Sentences and names are left to what is printed.
func list(out *strings.Builder, path string, v reflect.Value) {
	v = reflect.Indirect(v)
	var below []member
	if line := fields("", v, &below); line != "" {
		fmt.Fprintln(out, strings.Trim(path+line, ". "))
	}
	for _, m := range below {
		for i := range m.list.Len() {
			list(out, fmt.Sprintf("%s%s.%d", path, m.name, i), m.list.Index(i))
		}
	}
}

// member is a list that takes lines of its own.
type member struct {
	name string
	list reflect.Value
}

// fields are the members of a struct, and theirs, in one line.
func fields(prefix string, v reflect.Value, below *[]member) string {
	line := ""
	for i := range v.NumField() {
		name, f := prefix+"."+v.Type().Field(i).Name, reflect.Indirect(v.Field(i))
		text, ok := plain(f)
		switch {
		case ok && text != "":
			line += fmt.Sprintf(" %s=%s", name[1:], text)
		case ok, f.Type() == reflect.TypeFor[[]plan.View]() || f.Type() == reflect.TypeFor[[]plan.Assumption](): // listed elsewhere
		case f.Kind() == reflect.Struct:
			line += fields(name, f, below)
		case f.Len() > 0 && narrow(f.Type().Elem()):
			line += columns(name[1:], f)
		default:
			*below = append(*below, member{name, f})
		}
	}
	return line
}

// narrow says whether a type holds a few numbers and nothing else.
func narrow(t reflect.Type) bool {
	if t.Kind() != reflect.Struct || t.NumField() > 6 {
		return false
	}
	for i := range t.NumField() {
		if k := t.Field(i).Type.Kind(); k != reflect.Bool && k != reflect.Int && k != reflect.Float64 {
			return false
		}
	}
	return true
}

// sparse is how far apart the points of a drawing are listed.
const sparse = 30

// columns are the members of narrow values, each over all of them.
func columns(name string, v reflect.Value) string {
	step, line := 1, ""
	if v.Type().Elem() == reflect.TypeFor[plan.ViewPoint]() {
		step = sparse
	}
	for c := range v.Type().Elem().NumField() {
		var all []string
		some := false
		for i := 0; i < v.Len(); i += step {
			text, _ := plain(v.Index(i).Field(c))
			some = some || text != ""
			all = append(all, cmp.Or(text, "0"))
		}
		if some {
			line += fmt.Sprintf(" %s.%s=%v", name, v.Type().Elem().Field(c).Name, all)
		}
	}
	return line
}

// plain is a plain value in words, "" where it is zero or a sentence; false
// where it is not one.
func plain(v reflect.Value) (string, bool) {
	if !v.IsValid() {
		return "", true // a pointer to nothing
	}
	if at, ok := v.Interface().(time.Time); ok {
		if at.IsZero() {
			return "", true
		}
		return at.Format("2006-01-02T15:04"), true
	}
	switch v.Kind() {
	case reflect.Slice, reflect.Array:
		if k := v.Type().Elem().Kind(); k == reflect.Struct || k == reflect.Pointer {
			return "", false
		}
		var all []string
		some := false
		for i := range v.Len() {
			text, ok := plain(v.Index(i))
			if !ok {
				return "", false
			}
			some = some || !v.Index(i).IsZero()
			if text == "" {
				text = "0"
				if v.Index(i).Kind() == reflect.String {
					text = "…"
				}
			}
			all = append(all, text)
		}
		if !some {
			return "", true
		}
		return fmt.Sprint(all), true
	case reflect.Struct, reflect.Map:
		return "", false
	case reflect.String:
		if v.Type() == reflect.TypeFor[string]() && strings.Contains(v.String(), " ") {
			return "", true
		}
		return strings.ReplaceAll(v.String(), " ", "_"), true
	}
	if v.IsZero() {
		return "", true
	}
	if v.CanFloat() {
		text := fmt.Sprintf("%.4g", v.Float())
		if !strings.ContainsAny(text, ".e") {
			text += ".0" // so that it reads as a figure, not a count
		}
		return text, true
	}
	return fmt.Sprint(v.Interface()), true
}
