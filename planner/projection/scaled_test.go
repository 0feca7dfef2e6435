package projection

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/planner/trip"
)

// Half the usage of two legs halves what they take at every pace, of the set on
// the car and of the one that would follow it; the set itself stays as it is.
func TestScaled(t *testing.T) {
	s := wearing("scaled", 1, season(3))
	for _, p := range []*Set{s, s.Replacement} {
		p.Levels[0].LegLoss, p.Levels[0].Loss = []trip.Loss{{2, 4, 8}, {1, 2, 3}, {6, 8, 10}}, []float64{4, 2, 8}
	}
	got := s.Scaled([]int{0, 2}, 0.5)
	want := []trip.Loss{{1, 2, 4}, {1, 2, 3}, {3, 4, 5}}
	for _, p := range []*Set{got, got.Replacement} {
		if diff := cmp.Diff(want, p.Levels[0].LegLoss); diff != "" {
			t.Errorf("(-want +got):\n%s", diff)
		}
		if diff := cmp.Diff([]float64{2, 2, 4}, p.Levels[0].Loss); diff != "" {
			t.Errorf("nominal (-want +got):\n%s", diff)
		}
	}
	if got.Replacement.replaces != got || s.Replacement.replaces != s || s.Levels[0].LegLoss[0][1] != 4 {
		t.Errorf("the set itself: %v", s.Levels[0].LegLoss)
	}
}
