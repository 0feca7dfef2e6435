package kind

import (
	"math"
	"slices"
)

// guessed are what wears the more or the less where a key of the car is taken from
// cars of its kind: one standard deviation of ln. Engineering choices, from how far
// cars of a kind lie apart.
var guessed = []struct {
	key        string
	tire, pads float64
}{
	{"front_weight", 0.12, 0.06},
	{"alignment", 0.20, 0},
	{"cg_height", 0.05, 0.02},
	{"roll_front", 0.06, 0},
	{"track", 0.03, 0.01},
	{"wheelbase", 0.02, 0.02},
	{"drag_area", 0.02, 0.06},
	{"mass", 0.10, 0.10},
	{"power", 0.05, 0.10},
	{"rotors", 0, 0.15},
}

// guess is what the assumed keys of a car add to the spread of what its tires
// and its brakes take.
func guess(a At) (tire, pads float64) {
	for _, g := range guessed {
		if slices.Contains(a.Folder.Car.Assumed, g.key) {
			tire, pads = math.Hypot(tire, g.tire), math.Hypot(pads, g.pads)
		}
	}
	return tire, pads
}
