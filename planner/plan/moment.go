package plan

import (
	"slices"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
)

// Moment is one time on the way at which a check of a set is made.
type Moment struct {
	Leg     int
	At      float64 // share of the leg driven by then; 0 is before it
	Paddock bool    // the car stands where a spare can be fitted
}

// Ordered is a check of a set with the moments at which it is made on a trip.
type Ordered struct {
	kind.Check
	Moments []Moment
}

// Checks lists what the checklist orders for a set of a kind, watched or not, in
// the order of the list, on the legs that it is on; nil is all. What a check is
// worth is counted by these moments.
func Checks(k *kind.Kind, legs []Leg, on []bool, watched bool) []Ordered {
	var out []Ordered
	for _, c := range k.Checks {
		if !c.Of(watched) {
			continue
		}
		o := Ordered{c, slices.DeleteFunc(moments(c.When, legs), func(m Moment) bool {
			leg := m.Leg
			if c.When == kind.Night { // of the day before
				leg--
			}
			return on != nil && !on[leg]
		})}
		if len(o.Moments) > 0 || on == nil {
			out = append(out, o)
		}
	}
	return out
}

// moments lists when on a trip the checks of an occasion are made. A fuel stop
// on a circuit day has no known place among its sessions, so none is counted.
func moments(when string, legs []Leg) []Moment {
	var out []Moment
	for j, l := range legs {
		switch {
		case when == kind.Fuel && l.Kind == profiles.RoadLeg:
			for _, at := range l.RefuelAt {
				out = append(out, Moment{Leg: j, At: at / l.Meters})
			}
		case when == kind.Session && l.Kind == profiles.CircuitLeg:
			for k := range max(1, l.Sessions) {
				out = append(out, Moment{j, float64(k) / float64(max(1, l.Sessions)), true})
			}
		case when == kind.Night && l.Kind == profiles.CircuitLeg:
			out = append(out, Moment{j + 1, 0, true})
		}
	}
	return out
}

// Legs lists the legs before or on which a check is made, each once; the number
// of legs is back home.
func (o Ordered) Legs() []int {
	var out []int
	for _, m := range o.Moments {
		if !slices.Contains(out, m.Leg) {
			out = append(out, m.Leg)
		}
	}
	return out
}

// Occasions says when a trip has checks of a set, such as "before each session
// and after each circuit day"; "" where it has none.
func Occasions(checks []Ordered) string {
	var out []string
	for _, c := range checks {
		if len(c.Moments) > 0 && !slices.Contains(out, c.When) {
			out = append(out, c.When)
		}
	}
	if len(out) < 2 {
		return strings.Join(out, "")
	}
	last := len(out) - 1
	return strings.Join(out[:last], ", ") + " and " + out[last]
}
