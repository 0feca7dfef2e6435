package tire

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

const deg = math.Pi / 180

// Trigonometry.
func TestScrub(t *testing.T) {
	const feet = 5280 // per mile
	near(t, "0.15 deg, ft/mi", feet*Scrub(0.15*deg), 13.82, 5e-4)
	near(t, "1/8 in at 26 in, ft/mi", feet*Scrub(ToeAcross(inch/8, 26*inch)), 25.38, 5e-4)
}

// Published shop conversion table: 1/8 in of total toe at a 26 in tire is
// 0.138 degrees a wheel.
func TestToeAcross(t *testing.T) {
	near(t, "toe, deg", ToeAcross(inch/8/2, 26*inch)/deg, 0.138, 3e-3)
	rapid.Check(t, func(t *rapid.T) {
		difference := rapid.Float64Range(-2, 2).Draw(t, "difference")
		toe := ToeAcross(difference, 0.65)
		if math.IsNaN(toe) || toe*difference < 0 {
			t.Errorf("toe %v at a difference of %v m", toe, difference)
		}
		if math.Abs(difference) < 0.6 {
			near(t, "back again", 0.65*Scrub(toe), difference, 1e-9)
		}
	})
}
