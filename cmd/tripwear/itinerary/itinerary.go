// Package itinerary is a trip given on one command line: roads and circuits in
// the order in which they are driven.
package itinerary

import (
	"errors"
	"fmt"
	"maps"
	"regexp"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// Line is what was given, in its order.
type Line struct {
	Depart string
	given  []given
}

type given struct{ flag, value string }

// flag is one that adds to a line each time that it is given.
type flag struct {
	line *Line
	name string
}

func (f flag) String() string { return "" }
func (f flag) Type() string   { return "string" }
func (f flag) Set(value string) error {
	f.line.given = append(f.line.given, given{f.name, value})
	return nil
}

// AddTo adds the flags of a line.
func (l *Line) AddTo(flags *pflag.FlagSet) {
	for _, f := range [][2]string{
		{"road", "a road of a trip given here, such as 1010mi; roads and circuits in the order of the trip"},
		{"circuit", "a circuit of a trip given here: its id or name, or such as \"3.6 km, 70 % left\""},
		{"days", "circuit days of the circuit before; 1 unless given"},
		{"sessions", "running of a day of the circuit before, such as \"5 x 20 min\""},
		{"pace", "on the circuit before: novice, intermediate, advanced, expert or a share of grip"},
	} {
		flags.Var(flag{l, f[0]}, f[0], f[1])
	}
	flags.StringVar(&l.Depart, "depart", "", "departure of a trip given here, such as 2027-05-13; four weeks from today unless given")
}

// Given says whether there is a trip.
func (l *Line) Given() bool { return len(l.given) > 0 || l.Depart != "" }

// notice is how many days ahead a trip without a day leaves: also a part whose
// delivery nobody knows can be there by then, fitted and bedded in. Engineering
// choice.
const notice = 28

// Trip is the trip that was given, and the folder with the circuits that only the
// line knows.
func (l *Line) Trip(f *profiles.Folder, today time.Time) (*profiles.Folder, profiles.Trip, error) {
	f = f.Clone()
	f.Circuits = maps.Clone(f.Circuits)
	out := profiles.Trip{ID: "line", Name: "Trip", Depart: trip.Latest(f, today).AddDate(0, 0, notice)}
	if l.Depart != "" {
		day, err := quantity.ParseDay(l.Depart)
		if err != nil {
			return nil, out, terminal.Misuse("--depart: "+err.Error(), "write --depart 2027-05-13")
		}
		out.Depart = day
	}
	var errs profiles.Errors
	fail := func(g given, err error) {
		var bad profiles.Errors
		if !errors.As(err, &bad) {
			bad = profiles.Errors{{What: err.Error()}}
		}
		for _, e := range bad {
			e.Position = profiles.Position{File: "--" + g.flag}
		}
		errs = append(errs, bad...)
	}
	changes := map[string]string{"road": "distance", "days": "days", "sessions": "sessions", "pace": "pace"}
	for _, g := range l.given {
		if g.flag == "road" {
			out.Legs = append(out.Legs, trip.Road(f, "the road"))
		}
		if g.flag == "circuit" {
			id, err := circuit(f, g.value)
			if err != nil {
				fail(g, err)
				continue
			}
			out.Legs = append(out.Legs, trip.Visit(f, id))
			continue
		}
		last := len(out.Legs) - 1
		if g.flag != "road" && (last < 0 || out.Legs[last].Kind != profiles.CircuitLeg) {
			fail(g, profiles.Errors{{What: g.value + " stands behind no circuit", Expected: "a --circuit before it", Hint: "such as --circuit heron-flats --days 2"}})
			continue
		}
		nth := 0 // of its kind, which is how a change names a leg
		for _, leg := range out.Legs {
			if leg.Kind == out.Legs[last].Kind {
				nth++
			}
		}
		if err := f.Apply(&out, profiles.Change{Key: fmt.Sprintf("%s.%d", changes[g.flag], nth), Value: g.value}); err != nil {
			fail(g, err)
		}
	}
	if len(errs) == 0 && len(out.Legs) == 0 {
		return nil, out, terminal.Misuse("--depart has no trip", "give roads and circuits, such as --road 1010mi --circuit heron-flats --days 2 --road 1010mi")
	}
	if len(errs) > 0 {
		return nil, out, errs
	}
	name(f, &out)
	return f, out, nil
}

// name names the trip by its circuits and its roads by where they lead.
func name(f *profiles.Folder, t *profiles.Trip) {
	from, seen := "Home", []string(nil)
	for i := range t.Legs {
		l := &t.Legs[i]
		if l.Kind == profiles.CircuitLeg {
			from = f.Circuits[l.Name].Name
			seen = append(seen, from)
			continue
		}
		to := "home"
		for _, next := range t.Legs[i+1:] {
			if next.Kind == profiles.CircuitLeg {
				to = f.Circuits[next.Name].Name
				break
			}
		}
		l.Name = from + " to " + to
	}
	if len(seen) > 0 {
		t.Name = "To " + strings.Join(seen, " and ")
	}
}

// summary is a circuit in two figures.
var summary = regexp.MustCompile(`^\s*(\S+ *[a-z]+)\s*[,;]\s*(\d+ *%) *(left|right)( turns)?\s*$`)

// circuit finds a circuit of the folder, or adds the one that is described.
func circuit(f *profiles.Folder, text string) (string, error) {
	m := summary.FindStringSubmatch(text)
	if m == nil {
		if strings.ContainsAny(text, ",%") {
			return "", profiles.Errors{{What: text + " is not a circuit", Expected: "a circuit's id or name, or its length and left share", Hint: `such as "3.6 km, 70 % left"`}}
		}
		return trip.FindCircuit(f, text)
	}
	length, err := quantity.Parse[quantity.Length](m[1])
	if err != nil {
		return "", err
	}
	share, err := quantity.Parse[quantity.Share](m[2])
	if err != nil {
		return "", err
	}
	if share > 1 || length < 200 || length > 100e3 {
		return "", profiles.Errors{{What: text + " is no circuit", Expected: "0.2 to 100 km and a share of 0 to 100 %"}}
	}
	if m[3] == "right" {
		share = 1 - share
	}
	id := "circuit-" + fmt.Sprint(len(f.Circuits)+1)
	f.Circuits[id] = profiles.Circuit{ID: id, Name: "the circuit of " + m[1], Length: length, LeftShare: share}
	return id, nil
}
