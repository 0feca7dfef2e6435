package trace

import (
	"math"
	"testing"
)

// Corners cut in two, straights a little bent and corners of the wrong radius
// are given up, and what is there stays.
func TestSimplifyFindsTheCorners(t *testing.T) {
	want, sights := around(0.5)
	rough := &curve{start: want.start}
	for j, a := range want.arcs {
		half := arc{metres: a.metres / 2, bend: a.bend * (1 + 0.02*float64(j%3))}
		other := arc{metres: a.metres / 2, bend: a.bend * (1 - 0.02*float64(j%3))}
		rough.arcs = append(rough.arcs, half, other)
	}
	got, _ := rough.simplify(sights, 0.25)
	if len(got.arcs) != len(want.arcs) {
		t.Fatalf("%d arcs, want %d: %+v", len(got.arcs), len(want.arcs), got.arcs)
	}
	for j, w := range want.arcs {
		g := got.arcs[j]
		if g.straight != w.straight || math.Abs(g.bend-w.bend) > 0.06*math.Abs(w.bend) || math.Abs(g.metres-w.metres) > 3 {
			t.Errorf("arc %d: %+v, want %+v", j, g, w)
		}
	}
}
