package planner

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/gonum/floats/scalar"

	"example.com/tripwear/planner/circuits"
	"example.com/tripwear/planner/labreport"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
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
			fitted(f, profiles.Tire, "LF").Found = map[string]logbook.Finding{"LF": "cords"}
			fitted(f, profiles.Tire, "LR").Built = map[string]string{"LR": "2019"}
			fitted(f, profiles.Pads, "LR").Lining = map[string]logbook.Finding{"LR": "taper"}
			fitted(f, profiles.Bearing, "RR").Feel = map[string]logbook.Finding{"RR": "tight"}
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
			c, err := circuits.Describe(f, "heron-flats", circuits.Drive{Pace: "intermediate"})
			if err != nil {
				t.Fatal(err)
			}
			return c
		}},
		{"rank", nil, func(t *testing.T) any {
			f, _ := demo(t, "juniper")
			r, err := circuits.Rank(f, "RF hub", circuits.Drive{Pace: "intermediate"})
			if err != nil {
				t.Fatal(err)
			}
			return r
		}},
		{"oil", nil, func(t *testing.T) any {
			f, _ := demo(t, "juniper")
			r, err := labreport.Read(f, sampled(t, f, func(*profiles.OilReport) {}))
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

func made(t *testing.T, o Options) func(*profiles.Folder, profiles.Trip) *plan.Plan {
	return func(f *profiles.Folder, trip profiles.Trip) *plan.Plan {
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
func assumed(all []plan.Assumption) string {
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
