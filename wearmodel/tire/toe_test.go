package tire

import (
	"math"
	"testing"
)

const deg = math.Pi / 180

// Trigonometry. 1/8 in of total toe at a 26 in tire is 0.138 degrees a wheel in
// a published shop conversion table.
func TestScrub(t *testing.T) {
	const feet = 5280 // per mile
	near(t, "0.15 deg, ft/mi", feet*Scrub(0.15*deg), 13.82, 5e-4)
	near(t, "1/8 in of a wheel at 26 in, ft/mi", feet*Scrub(math.Asin(1.0/8/26)), 25.38, 5e-4)
	near(t, "0.138 deg, ft/mi", feet*Scrub(0.138*deg), 5280.0/8/2/26, 3e-3)
}
