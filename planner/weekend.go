package planner

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/nearest"
)

// Weekend is a trip to one circuit, to be asked about without a trip file: the
// road out, circuit days, the road home, both roads of no length yet. The
// circuit is given by its id or its name. It leaves on the later of today and
// the last date in the car's profile.
func Weekend(f *profiles.Folder, circuit string, today time.Time) (profiles.Trip, error) {
	id, err := findCircuit(f, circuit)
	if err != nil {
		return profiles.Trip{}, err
	}
	pace := ""
	if c := f.Circuits[id]; c.LapTime == 0 && c.Trace == nil {
		pace = "intermediate"
	}
	session := f.Model.Session
	return profiles.Trip{
		ID: "weekend", Name: "Days at " + f.Circuits[id].Name, Depart: latest(f, today),
		Legs: []profiles.Leg{
			{Kind: profiles.RoadLeg, Name: "the road out", Surface: "highway", Ambient: session.Ambient},
			{
				Kind: profiles.CircuitLeg, Name: id, Days: 1, Pace: pace, Ambient: session.Ambient,
				Sessions: profiles.Sessions{Count: session.PerDay, Each: session.Each},
			},
			{Kind: profiles.RoadLeg, Name: "the road home", Surface: "highway", Ambient: session.Ambient},
		},
	}, nil
}

func findCircuit(f *profiles.Folder, circuit string) (string, error) {
	ids := slices.Sorted(maps.Keys(f.Circuits))
	for _, id := range ids {
		if id == circuit || strings.EqualFold(f.Circuits[id].Name, circuit) {
			return id, nil
		}
	}
	if len(ids) == 0 {
		return "", profiles.Errors{{What: "the car folder has no circuit", Hint: "write one in circuits/, such as circuits/heron-flats.yaml"}}
	}
	return "", unknown("circuit", circuit, ids)
}

// latest is the later of a day and the last date in the car's profile.
func latest(f *profiles.Folder, today time.Time) time.Time {
	for _, e := range f.Car.Fitted {
		if e.Since.Date.After(today) {
			today = e.Since.Date
		}
	}
	return today
}

// unknown says that a word is none of those known, with the one that was
// probably meant.
func unknown(what, word string, known []string) profiles.Errors {
	s := fmt.Sprintf("unknown %s %q", what, word)
	if meant := nearest.Word(word, known); meant != "" {
		s += fmt.Sprintf(" (did you mean %q?)", meant)
	}
	return profiles.Errors{{What: s, Expected: "one of " + strings.Join(known, ", ")}}
}

// findSets picks the sets that a query names: by id, or by words that all
// stand in its id or name, such as "front pads", "rotors" or "hub". An empty
// query is every set.
func findSets(sets []*set, query string) ([]int, error) {
	wanted := tokens(query)
	var out []int
	var known []string
	for i, s := range sets {
		if s.ID == query {
			return []int{i}, nil
		}
		have := tokens(s.ID + " " + s.Name)
		if places := s.places(); len(places) == 1 {
			have = append(have, tokens(corner[places[0]])...)
		}
		all := true
		for _, w := range wanted {
			all = all && slices.Contains(have, w)
		}
		if all {
			out = append(out, i)
		}
		known = append(known, s.Name)
	}
	if len(out) == 0 {
		return nil, unknown("set", query, known)
	}
	return out, nil
}

// corner says in words where a hub is.
var corner = map[string]string{"LF": "left front", "RF": "right front", "LR": "left rear", "RR": "right rear"}

// tokens are the words of a name without capitals and plurals.
func tokens(s string) []string {
	out := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return r == ' ' || r == '-' || r == '_' })
	for i, w := range out {
		if w = strings.TrimSuffix(w, "s"); w == "tyre" {
			w = "tire"
		}
		out[i] = w
	}
	return out
}
