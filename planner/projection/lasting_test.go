package projection

import (
	"math"
	"testing"
)

// How many days a share of the draws lasts lies on a straight line between
// whole days: with chances of 95, 80 and 40 % after 1, 2 and 3 days, 90 % of
// them last a day and a third, half of them 2.75. Nothing lasts less than no
// day, and no more than is looked ahead.
func TestLastingByHand(t *testing.T) {
	curve := []float64{1, 0.95, 0.8, 0.4}
	for _, c := range []struct{ share, want float64 }{{0.9, 4.0 / 3}, {0.5, 2.75}, {0.8, 2}, {0.4, 3}, {0.1, 3}} {
		if got := Lasting(curve, c.share); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%g of the draws last %g days, want %g", c.share, got, c.want)
		}
	}
	if got := Lasting([]float64{0.85, 0.7}, 0.9); got != 0 {
		t.Errorf("worn out by the road alone it lasts %g days", got)
	}
}
