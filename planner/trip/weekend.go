package trip

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
	id, err := FindCircuit(f, circuit)
	if err != nil {
		return profiles.Trip{}, err
	}
	return profiles.Trip{
		ID: "weekend", Name: "Days at " + f.Circuits[id].Name, Depart: Latest(f, today),
		Legs: []profiles.Leg{Road(f, "the road out"), Visit(f, id), Road(f, "the road home")},
	}, nil
}

// Road is a highway of no length yet, on a usual day.
func Road(f *profiles.Folder, name string) profiles.Leg {
	return profiles.Leg{Kind: profiles.RoadLeg, Name: name, Surface: "highway", Ambient: f.Model.Session.Ambient}
}

// Visit is a usual day on a circuit, at an intermediate pace where nothing of the
// circuit tells the owner's.
func Visit(f *profiles.Folder, id string) profiles.Leg {
	session := f.Model.Session
	l := profiles.Leg{
		Kind: profiles.CircuitLeg, Name: id, Days: 1, Ambient: session.Ambient,
		Sessions: profiles.Sessions{Count: session.PerDay, Each: session.Each},
	}
	if c := f.Circuits[id]; c.LapTime == 0 && c.Trace == nil {
		l.Pace = "intermediate"
	}
	return l
}

// FindCircuit is the id of a circuit given by its id or its name.
func FindCircuit(f *profiles.Folder, circuit string) (string, error) {
	ids := slices.Sorted(maps.Keys(f.Circuits))
	for _, id := range ids {
		if id == circuit || strings.EqualFold(f.Circuits[id].Name, circuit) {
			return id, nil
		}
	}
	if len(ids) == 0 {
		return "", profiles.Errors{{What: "the car folder has no circuit", Hint: "write one in circuits/, such as circuits/heron-flats.yaml"}}
	}
	return "", Unknown("circuit", circuit, ids)
}

// Latest is the later of a day and the last date in the car's profile.
func Latest(f *profiles.Folder, today time.Time) time.Time {
	for _, e := range f.Car.Fitted {
		if e.Since.Date.After(today) {
			today = e.Since.Date
		}
	}
	return today
}

// Unknown says that a word is none of those known, with the one that was
// probably meant.
func Unknown(what, word string, known []string) profiles.Errors {
	s := fmt.Sprintf("unknown %s %q", what, word)
	if meant := nearest.Word(word, known); meant != "" {
		s += fmt.Sprintf(" (did you mean %q?)", meant)
	}
	return profiles.Errors{{What: s, Expected: "one of " + strings.Join(known, ", ")}}
}
