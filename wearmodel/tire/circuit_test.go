package tire

import (
	"math"
	"testing"

	"example.com/tripwear/wearmodel/duty"
)

// A tenth more corner speed costs about half as much tread again: a tire
// maker's care page, by way of a secondary source. The brush form gives 1.497
// at 0.3 g on a tire of peak friction 1.1 (independent program).
func TestWearWithCornerSpeed(t *testing.T) {
	for _, c := range []struct{ friction, want, tol float64 }{
		{1.1, 1.497, 5e-4},
		{1.0, 1.5, 0.05},
		{1.2, 1.5, 0.05},
	} {
		car := each(onJuniper(), func(f *Fitted) { f.Friction = c.friction })
		slow := Circuit(frictionless(), car, cornering(20, 0.3))
		fast := Circuit(frictionless(), car, cornering(22, 0.3*1.1*1.1))
		for p := range slow {
			near(t, "a tenth more speed", fast[p].Mean/slow[p].Mean, c.want, c.tol)
		}
	}
}

// Wear goes with lateral force to a power between 2 and 4, up to 500 lb:
// Rubber Chem. Technol. 46(4) 821, abstract.
func TestWearExponent(t *testing.T) {
	v := frictionless()
	perWheel := v.Mass / 4 // kg; the force is spread over four
	at := func(pounds float64) float64 {
		g := pounds * 4.448222 / perWheel / duty.G
		total := 0.0
		for _, r := range Circuit(v, onJuniper(), cornering(20, g)) {
			total += r.Mean
		}
		return total
	}
	for _, pounds := range []float64{50, 150, 300, 450} {
		up := pounds * 1.1
		n := math.Log(at(up)/at(pounds)) / math.Log(1.1)
		if n < 2 || n > 4 {
			t.Errorf("at %v lb: exponent %.2f", pounds, n)
		}
	}
}

// Harder cornering wears more, at every wheel that stays on the road.
func TestWearGrowsWithCornering(t *testing.T) {
	last := [4]Rate{}
	for _, g := range []float64{0.2, 0.4, 0.6, 0.8} {
		got := Circuit(juniper, onJuniper(), cornering(25, g))
		for p := range got {
			if got[p].Mean <= last[p].Mean {
				t.Errorf("%v at %v g: %v, before %v", duty.Place(p), g, got[p].Mean, last[p].Mean)
			}
		}
		if got[duty.RF].Mean <= got[duty.LF].Mean {
			t.Errorf("at %v g left: the outside tire wears less", g)
		}
		last = got
	}
}

// A stiffer tire slips less for the same force. Brush model.
func TestStifferTireWearsLess(t *testing.T) {
	ordinary := each(onJuniper(), func(f *Fitted) { f.Cornering = 0.16 / deg })
	a := Circuit(juniper, ordinary, cornering(25, 0.6))
	b := Circuit(juniper, onJuniper(), cornering(25, 0.6))
	for p := range a {
		if b[p].Mean >= a[p].Mean {
			t.Errorf("%v: %v, on the softer tire %v", duty.Place(p), b[p].Mean, a[p].Mean)
		}
	}
}

// Slip angles of a tire at 0.3 and 0.9 of its grip: Pacejka's brush tire,
// computed.
func TestSlipAngle(t *testing.T) {
	tread := tread200(0.316, 0.195)
	tread.Cornering = 0.28 / deg
	const load = 4000
	for use, want := range map[float64]float64{0.3: 1.321, 0.9: 6.290} { // deg
		slip, _ := tread.brush().Slip(duty.Wheel{Fz: load, Fy: use * 1.1 * load}, 20)
		near(t, "slip angle, deg", math.Atan(slip)/deg, want, 5e-4)
	}
}
