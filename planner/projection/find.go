package projection

import (
	"slices"
	"strings"

	"example.com/tripwear/planner/trip"
)

// Find picks the sets that a query names: by id, or by words that all
// stand in its id or name, such as "front pads", "rotors" or "hub". An empty
// query is every set.
func Find(sets []*Set, query string) ([]int, error) {
	wanted := tokens(query)
	var out []int
	var known []string
	for i, s := range sets {
		if s.ID == query {
			return []int{i}, nil
		}
		have := tokens(s.ID + " " + s.Name + " " + s.Spec.Called)
		if places := s.Places(); len(places) == 1 {
			have = append(have, tokens(Corner[places[0]])...)
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
		return nil, trip.Unknown("set", query, known)
	}
	return out, nil
}

// Corner says in words where a hub is.
var Corner = map[string]string{"LF": "left front", "RF": "right front", "LR": "left rear", "RR": "right rear"}

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
