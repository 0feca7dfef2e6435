package profiles

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/quantity"
)

// circuit reads a circuit and checks that it is known one way and closes.
func (l *loader) circuit(file string) {
	c := Circuit{ID: id(file)}
	d, ok := l.decode(file, &c, false)
	where := d.At
	c.Sources = d.Sources
	before := len(l.errs)
	corners, byCorners := where["corners"]
	switch {
	case len(c.Files()) > 0:
		l.track(&c, where)
	case byCorners:
		for _, key := range []string{"length", "left_share", "heavy_brakings"} {
			if pos, given := where[key]; given {
				l.errs.Add(pos, fmt.Sprintf("key %q beside corners", key), "corners alone, which say it themselves", "remove the line")
			}
		}
		if ok {
			l.closes(c, where, corners)
		}
	case ok:
		for _, key := range []string{"length", "left_share"} {
			if _, given := where[key]; !given {
				l.errs.Add(where[""], fmt.Sprintf("key %q is missing", key), "length and left_share, or corners, or gpx", "")
			}
		}
		if pos, given := where["braking"]; given {
			l.errs.Add(pos, "key \"braking\" without corners", "braking beside corners alone", "give heavy_brakings, or remove the line")
		}
	}
	if pos, given := where["pace"]; given {
		if !c.BySummary() || c.LapTime == 0 {
			l.errs.Add(pos, "a pace without a lap_time of a circuit known by its summary", "pace beside lap_time, length and left_share", "the pace of a visit goes on its leg")
		} else {
			l.pace(c.Pace, pos)
		}
	}
	if !ok || len(l.errs) > before {
		l.broken["circuits/"+c.ID] = true
	}
	l.folder.Circuits[c.ID] = c
}

// closes checks each corner, and that the turning of a closed plan adds up:
// once round, or not at all where it crosses itself.
func (l *loader) closes(c Circuit, where map[string]Position, corners Position) {
	const degree = math.Pi / 180
	sum, before := 0.0, len(l.errs)
	for i, k := range c.Corners {
		pos := where[fmt.Sprintf("corners[%d]", i)]
		switch {
		case k.Turn != 0 && k.Radius == 0:
			l.errs.Add(pos, "a turn without a radius", "turn and radius", "")
		case k.Turn == 0 && k.Radius != 0:
			l.errs.Add(pos, "a radius without a turn", "turn and radius", "")
		case k.Straight == 0 && k.Turn == 0:
			l.errs.Add(pos, "a corner without a straight or a turn", "straight, or turn and radius, or all three", "")
		}
		sum += float64(k.Turn) / degree
	}
	if off := math.Min(math.Abs(math.Abs(sum)-360), math.Abs(sum)); off > 5 && len(l.errs) == before {
		l.errs.Add(corners, fmt.Sprintf("the corners turn %.0f deg in all, left counted positive", sum), "360 or -360 deg for a closed circuit, or 0 for one that crosses itself, within 5", "check the directions and add what is missing")
	}
}

// trip reads a trip, checks its legs and fills in what they leave out.
func (l *loader) trip(file string) {
	t := Trip{ID: id(file)}
	d, _ := l.decode(file, &t, false)
	where := d.At
	session := l.folder.Model.Session
	for i := range t.Legs {
		leg, path := &t.Legs[i], fmt.Sprintf("legs[%d]", i)
		leg.At = where[path]
		if _, given := where[path+".ambient"]; !given {
			leg.Ambient = session.Ambient
		}
		switch leg.Kind {
		case RoadLeg:
			l.surface(leg, where[path+".surface"])
		case CircuitLeg:
			if leg.Days == 0 {
				leg.Days = 1
			}
			if _, given := where[path+".rain"]; leg.Wet && !given {
				leg.Rain = 1
			}
			if _, given := where[path+".sessions"]; !given {
				leg.Sessions = Sessions{session.PerDay, session.Each}
			}
			l.visit(leg, where, path)
		}
	}
	if at, given := where["legs"]; given && len(t.Legs) > 0 && !slices.ContainsFunc(t.Legs, func(leg Leg) bool { return leg.Kind != StopLeg }) {
		l.errs.Add(at, "no leg drives", "at least one road or circuit among the legs", "write {road: Home to the workshop, distance: 12 mi}")
	}
	l.folder.Trips[t.ID] = t
	l.later = append(l.later, func() { l.fits(t, where) })
}

func (l *loader) surface(leg *Leg, pos Position) {
	if leg.Surface == "" {
		leg.Surface = "highway"
	}
	if _, ok := l.folder.Model.Surfaces[leg.Surface]; !ok {
		known := slices.Sorted(maps.Keys(l.folder.Model.Surfaces))
		l.errs.Add(pos, nearest.Unknown("surface", leg.Surface, known), nearest.OneOf(known), "")
	}
}

func (l *loader) visit(leg *Leg, where map[string]Position, path string) {
	c, ok := l.folder.Circuits[leg.Name]
	if !ok && leg.Name != "" {
		known := slices.Sorted(maps.Keys(l.folder.Circuits))
		l.errs.Add(where[path+".circuit"], nearest.Unknown("circuit", leg.Name, known), "a file of circuits/: "+nearest.OneOf(known), "a circuit's id is its file's name without .yaml")
		return
	}
	if pos, given := where[path+".lap_time"]; given && leg.Pace != "" {
		l.errs.Add(pos, "lap_time beside pace", "one of them", "a lap time is turned into a pace by driving the circuit")
	}
	if leg.Pace == "" {
		if _, given := where[path+".pace"]; ok && !given && c.LapTime == 0 && leg.LapTime == 0 && c.Trace == nil && !l.broken["circuits/"+c.ID] {
			l.errs.Add(where[path], fmt.Sprintf("circuit %q has no lap_time and the leg no pace", leg.Name), "one of them", "write pace: intermediate on the leg")
		}
		return
	}
	l.pace(leg.Pace, where[path+".pace"])
}

// pace checks one of the model's words or a share of grip.
func (l *loader) pace(pace string, pos Position) {
	if _, known := l.folder.Model.Paces[pace]; known {
		return
	}
	share, err := quantity.Parse[quantity.Share](pace)
	words := slices.Sorted(maps.Keys(l.folder.Model.Paces))
	switch {
	case err != nil:
		l.errs.Add(pos, nearest.Unknown("pace", pace, words), nearest.OneOf(append(words, "a share of grip such as 80 %")), "")
	case share < 0.4 || share > 1.05:
		l.errs.Add(pos, fmt.Sprintf("pace: %s is out of range", pace), "40 % to 105 %", "")
	}
}

// paces puts the pace that the legs on a circuit agree on beside its lap time:
// an owner who gives both means that they go together. What is changed on a leg
// later leaves the circuit as it is.
func (l *loader) paces() {
	for id, c := range l.folder.Circuits {
		if !c.BySummary() || c.LapTime == 0 || c.Pace != "" {
			continue
		}
		var said []string
		for _, t := range l.folder.Trips {
			for _, leg := range t.Legs {
				if leg.Kind == CircuitLeg && leg.Name == id && !leg.Wet && leg.LapTime == 0 && !slices.Contains(said, leg.Pace) {
					said = append(said, leg.Pace)
				}
			}
		}
		if len(said) == 1 {
			c.Pace = said[0]
			l.folder.Circuits[id] = c
		}
	}
}
