package kind

import (
	"slices"

	"example.com/tripwear/profiles"
)

// All lists the kinds in the order of a walk round the car.
var All = append([]*Kind{Tire, Pads, Rotors, Bearing, Oil, Fluid}, limited()...)

// Of finds a kind by its id. Profiles hold no other, so nil is a fault of this
// program; the completeness test compares the two lists.
func Of(id profiles.Kind) *Kind {
	for _, k := range All {
		if k.ID == id {
			return k
		}
	}
	return nil
}

// Partner is the id of the set at the same places whose labor is shared with a
// set's; "" where there is none.
func Partner(id string) string {
	for _, mine := range profiles.Sets() {
		if mine.ID != id || Of(mine.Kind).LaborWith == "" {
			continue
		}
		for _, other := range Of(mine.Kind).LaborWith.Info().Sets {
			if slices.Equal(other.At, mine.At) {
				return other.ID
			}
		}
	}
	return ""
}
