package planner

import (
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/gonum/floats/scalar"

	"example.com/tripwear/planner/labreport"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// TestAnswers compares every figure of a few answers with those last looked at
// and found good. It comes first and takes a second: what moves any figure is
// seen here before the slower tests say what is wrong with it. UPDATE=1
// rewrites the files; their differences are to be looked at.
func TestAnswers(t *testing.T) {
	few := Options{Draws: 200}
	for _, c := range []struct {
		name string
		ask  func(t *testing.T) any
	}{
		{"juniper", func(t *testing.T) any { return made(t, few)(demo(t, "juniper")) }},
		{"fjord", func(t *testing.T) any { return made(t, few)(demo(t, "fjord")) }},
		{"log", func(t *testing.T) any {
			return made(t, Options{Draws: 200, Today: departure.AddDate(0, 0, -20)})(aSeason(t))
		}},
		{"found", func(t *testing.T) any {
			f, trip := demo(t, "juniper")
			fitted(f, profiles.Fluid, "system").Water = 0.02
			fitted(f, profiles.Tire, "LF").Found = map[string]logbook.Finding{"LF": "cords"}
			fitted(f, profiles.Tire, "LR").Built = map[string]string{"LR": "2019"}
			fitted(f, profiles.Pads, "LR").Lining = map[string]logbook.Finding{"LR": "taper"}
			fitted(f, profiles.Bearing, "RR").Feel = map[string]logbook.Finding{"RR": "tight"}
			f.Car.Boot.Volume /= 2
			trip.Legs[6].Reverse, trip.Legs[6].Wet = true, true
			return made(t, few)(f, trip)
		}},
		{"compare", func(t *testing.T) any {
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
		{"lasts", func(t *testing.T) any {
			f, _ := demo(t, "juniper")
			l, err := Lasts(f, weekend(t, f, 2, 600), Ask{}, few)
			if err != nil {
				t.Fatal(err)
			}
			return l
		}},
		{"learn", func(t *testing.T) any {
			f, trip := aSeason(t)
			l, err := Learn(f, &trip, few)
			if err != nil {
				t.Fatal(err)
			}
			return l
		}},
		{"circuit", func(t *testing.T) any {
			f, _ := demo(t, "juniper")
			return describe(t, f, "heron-flats", Drive{Pace: "intermediate"})
		}},
		{"rank", func(t *testing.T) any {
			f, _ := demo(t, "juniper")
			r, err := RankCircuits(f, "RF hub", Drive{Pace: "intermediate"})
			if err != nil {
				t.Fatal(err)
			}
			return r
		}},
		{"oil", func(t *testing.T) any {
			f, _ := demo(t, "juniper")
			r, err := labreport.Read(f, sampled(t, f, func(*profiles.OilReport) {}))
			if err != nil {
				t.Fatal(err)
			}
			return r
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got strings.Builder
			list(&got, c.name, reflect.ValueOf(c.ask(t)))
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
			if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got.String(), "\n"), cmp.Comparer(alike)); diff != "" {
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

// sparse is how far apart the points of a drawing are listed.
const sparse = 30

// list writes what is not zero in a value, a line for each thing that holds
// only plain values, figures to five digits.
func list(out *strings.Builder, path string, v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			list(out, path, v.Elem())
		}
	case reflect.Slice, reflect.Array:
		if text, ok := plain(v); ok {
			if text != "" {
				fmt.Fprintf(out, "%s %s\n", path, text)
			}
			return
		}
		step := 1
		if v.Type().Elem() == reflect.TypeFor[ViewPoint]() {
			step = sparse
		}
		for i := 0; i < v.Len(); i += step {
			list(out, fmt.Sprintf("%s.%d", path, i), v.Index(i))
		}
	case reflect.Struct:
		own := ""
		for i := range v.NumField() {
			if text, ok := plain(v.Field(i)); ok && text != "" {
				own += fmt.Sprintf(" %s=%s", v.Type().Field(i).Name, text)
			}
		}
		fmt.Fprintf(out, "%s%s\n", path, own)
		for i := range v.NumField() {
			if _, ok := plain(v.Field(i)); !ok {
				list(out, path+"."+v.Type().Field(i).Name, v.Field(i))
			}
		}
	default:
		panic(path + " holds a " + v.Kind().String())
	}
}

// plain is a plain value in words, "" where it is zero; false where it is not
// one.
func plain(v reflect.Value) (string, bool) {
	if at, ok := v.Interface().(time.Time); ok {
		if at.IsZero() {
			return "", true
		}
		return at.Format("2006-01-02T15:04"), true
	}
	switch v.Kind() {
	case reflect.Slice, reflect.Array:
		var all []string
		for i := range v.Len() {
			text, ok := plain(v.Index(i))
			if !ok || v.Index(i).Kind() == reflect.Struct {
				return "", false
			}
			if text == "" {
				text = "0"
			}
			all = append(all, text)
		}
		if v.IsZero() || len(all) == 0 {
			return "", true
		}
		return "[" + strings.Join(all, " ") + "]", true
	case reflect.Pointer:
		return "", v.IsNil()
	case reflect.Struct, reflect.Map:
		return "", false
	case reflect.String:
		if v.String() == "" {
			return "", true
		}
		return fmt.Sprintf("%q", v.String()), true
	}
	if v.IsZero() {
		return "", true
	}
	if v.CanFloat() {
		text := fmt.Sprintf("%.5g", v.Float())
		if !strings.ContainsAny(text, ".e") {
			text += ".0" // so that it reads as a figure, not a count
		}
		return text, true
	}
	return fmt.Sprint(v.Interface()), true
}
