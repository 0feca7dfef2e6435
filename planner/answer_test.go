package planner

import (
	"cmp"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	gocmp "github.com/google/go-cmp/cmp"
	"gonum.org/v1/gonum/floats/scalar"

	"example.com/tripwear/profiles"
)

// TestAnswers compares every figure of a few answers with those last looked at
// and found good. It comes first and takes a second: what moves any figure is
// seen here before the slower tests say what is wrong with it. UPDATE=1
// rewrites the files; their differences are to be looked at. Of the demo with a
// logbook, and with findings, it lists what the demo as it is has not.
func TestAnswers(t *testing.T) {
	few := Options{Draws: 200}
	juniper := made(t, few)(demo(t, "juniper"))
	known := slices.Collect(strings.Lines(listed(juniper)))
	for _, c := range []struct {
		name  string
		known []string
		ask   func(t *testing.T) any
	}{
		{"juniper", nil, func(*testing.T) any { return juniper }},
		{"fjord", nil, func(t *testing.T) any { return made(t, few)(demo(t, "fjord")) }},
		{"log", known, func(t *testing.T) any {
			return made(t, Options{Draws: 200, Today: departure.AddDate(0, 0, -20)})(aSeason(t))
		}},
		{"found", known, func(t *testing.T) any {
			f, trip := demo(t, "juniper")
			fitted(f, profiles.Fluid, "system").Water = 0.02
			fitted(f, profiles.Tire, "LF").Found = map[string]string{"LF": "cords"}
			fitted(f, profiles.Tire, "LR").Built = map[string]string{"LR": "2019"}
			fitted(f, profiles.Pads, "LR").Lining = map[string]string{"LR": "taper"}
			fitted(f, profiles.Bearing, "RR").Feel = map[string]string{"RR": "tight"}
			f.Car.Boot.Volume /= 2
			trip.Legs[5].Reverse, trip.Legs[5].Wet = true, true
			return made(t, few)(f, trip)
		}},
		{"compare", nil, func(t *testing.T) any {
			f, trip := demo(t, "juniper")
			both := []Way{{Label: "as it is"}, {Label: "advanced"}}
			for i, changes := range [][]profiles.Change{nil, {{Key: "pace", Value: "advanced"}, {Key: "distance.1", Value: "800mi"}}} {
				var err error
				if both[i].Folder, both[i].Plan, err = Vary(f, trip, changes, few); err != nil {
					t.Fatal(err)
				}
			}
			return Compare(both)
		}},
		{"lasts", nil, func(t *testing.T) any {
			f, _ := demo(t, "juniper")
			l, err := Lasts(f, weekend(t, f, 2, 600), Ask{}, few)
			if err != nil {
				t.Fatal(err)
			}
			return l
		}},
		{"learn", nil, func(t *testing.T) any {
			f, trip := aSeason(t)
			l, err := Learn(f, &trip, few)
			if err != nil {
				t.Fatal(err)
			}
			return l
		}},
		{"circuit", nil, func(t *testing.T) any {
			f, _ := demo(t, "juniper")
			return describe(t, f, "heron-flats", Drive{Pace: "intermediate"})
		}},
		{"rank", nil, func(t *testing.T) any {
			f, _ := demo(t, "juniper")
			r, err := RankCircuits(f, "RF hub", Drive{Pace: "intermediate"})
			if err != nil {
				t.Fatal(err)
			}
			return r
		}},
		{"oil", nil, func(t *testing.T) any {
			f, _ := demo(t, "juniper")
			r, err := ReadOil(f, sampled(t, f, func(*profiles.OilReport) {}))
			if err != nil {
				t.Fatal(err)
			}
			return r
		}},
		{"assumptions", nil, func(*testing.T) any { return assumed(juniper.Assumptions) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got strings.Builder
			for line := range strings.Lines(listed(c.ask(t))) {
				if !slices.Contains(c.known, line) {
					got.WriteString(line)
				}
			}
			path := filepath.Join("../testdata/golden/answers", c.name+".txt")
			if os.Getenv("UPDATE") != "" {
				if err := os.WriteFile(path, []byte(got.String()), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if diff := gocmp.Diff(strings.Split(string(want), "\n"), strings.Split(got.String(), "\n"), gocmp.Comparer(alike)); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

// figure is a number with a point or an exponent in a line.
var figure = regexp.MustCompile(`-?\d+(\.\d+(e[-+]\d+)?|e[-+]\d+)`)

// alike says whether two lines are the same but for a thousandth of their
// figures, which another way to the same root may move.
func alike(a, b string) bool {
	if a == b {
		return true
	}
	if figure.ReplaceAllString(a, "#") != figure.ReplaceAllString(b, "#") {
		return false
	}
	theirs := figure.FindAllString(b, -1)
	for i, s := range figure.FindAllString(a, -1) {
		x, errX := strconv.ParseFloat(s, 64)
		y, errY := strconv.ParseFloat(theirs[i], 64)
		if errX != nil || errY != nil || !scalar.EqualWithinAbsOrRel(x, y, 1e-9, 1e-3) {
			return false
		}
	}
	return true
}

func made(t *testing.T, o Options) func(*profiles.Folder, profiles.Trip) *Plan {
	return func(f *profiles.Folder, trip profiles.Trip) *Plan {
		t.Helper()
		p, err := Make(f, trip, o)
		if err != nil {
			t.Fatal(err)
		}
		p.Choice.Nodes = 0 // how the search went is no part of the answer
		return p
	}
}

// aSeason is the demo with a log of a few readings, trips, a renewal, and a
// reading that the others contradict.
func aSeason(t *testing.T) (*profiles.Folder, profiles.Trip) {
	t.Helper()
	log, err := os.ReadFile("../testdata/golden/season.csv")
	if err != nil {
		t.Fatal(err)
	}
	_, rows, _ := strings.Cut(string(log), "\n")
	return logged(t, rows)
}

// assumed are assumptions in short, a line for what each is about.
func assumed(all []Assumption) string {
	var out strings.Builder
	about := ""
	for _, a := range all {
		of, what, ok := strings.Cut(a.What, ": ")
		if !ok {
			of, what, _ = strings.Cut(a.What, ".")
		}
		if of != about {
			about = of
			fmt.Fprintf(&out, "\n%s: %s", of, a.Replace)
		}
		fmt.Fprintf(&out, "; %s %s [%s]", what, a.Value, a.Tag)
	}
	return strings.TrimPrefix(out.String(), "\n") + "\n"
}

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
		case ok, f.Type() == reflect.TypeFor[[]View]() || f.Type() == reflect.TypeFor[[]Assumption](): // listed elsewhere
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
	if v.Type().Elem() == reflect.TypeFor[ViewPoint]() {
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
