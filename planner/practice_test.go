package planner

import (
	"math"
	"testing"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
)

// A 200-treadwear rear set on a street-performance car is used up in about
// 6,000-7,000 highway miles and 4 circuit days: 2-3/32 in left of 8/32 in the
// worst zone, still 4-5/32 in the best. Half a 32nd is what a depth gauge tells.
func TestTrackTires(t *testing.T) {
	const gauge = 0.5
	for _, miles := range []float64{6000, 7000} {
		f, trip := demo(t, "juniper")
		fitNew(f, "tires-rear")
		trip.Legs = []profiles.Leg{
			road(miles / 3), days("heron-flats", 2, "intermediate"), road(miles / 3), days("quarry-ridge", 2, "intermediate"), road(miles / 3),
		}
		s := setOf(planned(t, f, trip), t, "tires-rear")
		worst, best := 99.0, 0.0
		for _, p := range s.Points {
			left := (p.New - lost(s, t, p.Place, p.Zone)) / thirtyTwo
			worst, best = min(worst, left), max(best, left)
		}
		t.Logf("%.0f mi and 4 days: %.1f/32 in the worst zone, %.1f/32 in the best", miles, worst, best)
		if worst < 2-gauge || worst > 3+gauge {
			t.Errorf("%.0f mi: %.2f/32 left in the worst zone, common practice says 2-3", miles, worst)
		}
		if best < 4-gauge || best > 5+gauge {
			t.Errorf("%.0f mi: %.2f/32 left in the best zone, common practice says 4-5", miles, best)
		}
	}
}

// Street-performance front pads after 6,000-10,000 road miles and a couple of
// events from new: a little more than half the friction material left. The
// events are taken as two weekends of two days, as many as the tires above see.
func TestStreetPerformancePads(t *testing.T) {
	for _, miles := range []float64{6000, 10000} {
		f, trip := demo(t, "juniper")
		fitNew(f, "pads-front")
		trip.Legs = []profiles.Leg{road(miles / 2), days("heron-flats", 2, "intermediate"), days("quarry-ridge", 2, "intermediate"), road(miles / 2)}
		s := setOf(planned(t, f, trip), t, "pads-front")
		p := s.Points[0]
		left := (p.New - lost(s, t, "LF", "")) / p.New
		t.Logf("%.0f mi and 4 days: %.0f %% left at the thinnest end", miles, 100*left)
		if left < 0.50 || left > 0.62 {
			t.Errorf("%.0f mi and 4 days: %.0f %% of the friction material left, common practice says a little more than half", miles, 100*left)
		}
	}
}

// Plain blank front rotors on a hard-driven street car: about 6-12 circuit
// days, to the nearest day. Hard driving is taken as a pace from intermediate to
// advanced.
func TestPlainRotors(t *testing.T) {
	for _, pace := range []string{"80 %", "85 %", "90 %"} {
		f, trip := demo(t, "juniper")
		fitNew(f, "rotors-front")
		trip.Legs = []profiles.Leg{days("heron-flats", 1, pace)}
		s := setOf(planned(t, f, trip), t, "rotors-front")
		lasts := 1 / lost(s, t, "LF", "face")
		t.Logf("pace %s: %.1f days", pace, lasts)
		if days := math.Round(lasts); days < 6 || days > 12 {
			t.Errorf("pace %s: plain rotors last %.1f days, common practice says 6-12", pace, lasts)
		}
	}
}

// Front pads just over half worn before an event are enough for one day; for
// two, a full spare set belongs in the boot.
func TestHalfWornPads(t *testing.T) {
	for n, enough := range map[int]bool{1: true, 2: false} {
		f, trip := demo(t, "juniper")
		for i := range f.Car.Fitted {
			if e := &f.Car.Fitted[i]; e.Part == "pads-front" {
				e.Pad["LF"], e.Pad["RF"] = 5.8e-3, 5.8e-3
			}
		}
		trip.Legs = []profiles.Leg{road(300), days("heron-flats", n, "intermediate"), road(300)}
		d := setOf(planned(t, f, trip), t, "pads-front").Decision
		if lasts := 1 - d.PAsIs; (lasts >= 0.95) != enough {
			t.Errorf("%d days on half-worn pads: they last with a chance of %.0f %%", n, 100*lasts)
		}
		if !enough && d.Action != plan.Bring {
			t.Errorf("%d days on half-worn pads: %s (%s), want a spare set carried", n, d.Action, d.Reason)
		}
	}
}
