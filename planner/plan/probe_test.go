package plan

import (
	"math"
	"testing"

	"example.com/tripwear/profiles/quantity"
)

// TestProbingSays by hand: 1 psi is 6894.757 Pa (NIST SP 811), 1 bar is 1e5 Pa. A
// change of camber is told as the setting it comes to, and what it costs as a
// cost.
func TestProbingSays(t *testing.T) {
	const degree = math.Pi / 180
	loss, would := [3]float64{0.0254 / 32, 0.00127, -1}, [3]float64{0.0254 / 16, 0.00127, -1}
	for _, c := range []struct {
		r           Probing
		u           quantity.System
		say, effect string
	}{
		{Probing{Why: "fine"}, quantity.US, "fine.", ""},
		{Probing{Why: "a", Pressure: 2 * 6894.757}, quantity.US, "a. Try 2 psi more.", ""},
		{Probing{Why: "a", Pressure: -14000}, quantity.Metric, "a. Try 0.14 bar less.", ""},
		{Probing{Why: "a", Camber: -degree / 2, Set: -2 * degree, Trips: math.Inf(1)}, quantity.US, "a. Try 0.5 deg more negative: -2.0 deg.", ""},
		{Probing{Why: "a", Camber: degree / 2, Set: -degree, Loss: loss, Would: would, Trips: 1.8, TripsNew: 1.9}, quantity.US, "a. Try 0.5 deg less negative: -1.0 deg.",
			"By the model this trip then takes 2.0, 1.6, 0.0/32 in instead of 1.0, 1.6, 0.0/32 in (inside, middle, outside); a new tire lasts 1.9 such trips instead of 1.8."},
		{Probing{Why: "a", Camber: -degree / 2, Set: -2 * degree, Loss: loss, Would: would, Trips: 1.9, TripsNew: 1.8}, quantity.Metric, "a. Try 0.5 deg more negative: -2.0 deg.",
			"By the model this trip then takes 1.6, 1.3, 0.0 mm instead of 0.8, 1.3, 0.0 mm (inside, middle, outside); that is for grip and costs life: a new tire lasts 1.8 such trips instead of 1.9."},
	} {
		if say, effect := c.r.Say(c.u), c.r.Effect(c.u); say != c.say || effect != c.effect {
			t.Errorf("%q, %q, want %q, %q", say, effect, c.say, c.effect)
		}
	}
}
