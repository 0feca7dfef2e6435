package brake

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"pgregory.net/rapid"

	"example.com/tripwear/wearmodel/duty"
)

// drawn is a car's axle with a lap, sessions and weather.
type drawn struct {
	car      duty.Vehicle
	axle     Axle
	lap      duty.Duty
	sessions []Session
	ambient  float64
}

func draw(t *rapid.T) drawn {
	g := drawn{car: car(), axle: front(), ambient: rapid.Float64Range(-10, 45).Draw(t, "ambient")}
	if rapid.Bool().Draw(t, "rear") {
		g.axle = rear()
	}
	g.car.Mass = rapid.Float64Range(600, 2500).Draw(t, "mass")
	g.axle.RingMass = rapid.Float64Range(2, 15).Draw(t, "ring")
	g.axle.Vented = rapid.Bool().Draw(t, "vented")
	at := 0.0
	for range rapid.IntRange(1, 12).Draw(t, "brakings") {
		to := rapid.Float64Range(5, 60).Draw(t, "to")
		b := duty.Braking{To: to, From: to + rapid.Float64Range(5, 40).Draw(t, "drop"), Decel: rapid.Float64Range(3, 14).Draw(t, "decel"), Start: at, Factor: 1}
		at += (b.From-b.To)/b.Decel + rapid.Float64Range(1, 30).Draw(t, "gap")
		g.lap.Brakings = append(g.lap.Brakings, b)
	}
	g.lap.Seconds = at
	g.lap.Meters = at * rapid.Float64Range(10, 60).Draw(t, "speed")
	for range rapid.IntRange(1, 4).Draw(t, "sessions") {
		g.sessions = append(g.sessions, Session{
			Laps: float64(rapid.IntRange(0, 20).Draw(t, "laps")),
			Rest: rapid.Float64Range(0, 7200).Draw(t, "rest"),
		})
	}
	g.temper()
	return g
}

// temper weakens the brakings until the rotor stays well below melting, even
// when one is doubled: the cooling of a lap is taken at its own mean, which
// says nothing of the first minutes on the way to thousands of degrees.
func (g drawn) temper() {
	for peak := g.run().Peak; peak > melts/2; peak = g.run().Peak {
		for i := range g.lap.Brakings {
			g.lap.Brakings[i].Factor *= 0.9 * melts / 2 / peak
		}
	}
}

func (g drawn) run() Outcome { return Run(g.car, g.axle, g.lap, g.sessions, g.ambient) }

// damages lists what an outcome took.
func (o Outcome) damages() map[string]float64 {
	return map[string]float64{
		"mean pad": o.PadMean, "thinnest pad": o.PadThinnest, "crack": o.Crack,
		"thickness": o.Thickness, "energy": o.Energy,
	}
}

// atLeast fails where some damage of more is below that of less.
func atLeast(t *rapid.T, more, less Outcome) {
	t.Helper()
	low := less.damages()
	for name, value := range more.damages() {
		if value < low[name]*(1-1e-9) {
			t.Errorf("%s: %g falls to %g", name, low[name], value)
		}
	}
	if more.Peak < less.Peak-1e-6 {
		t.Errorf("peak: %g falls to %g", less.Peak, more.Peak)
	}
}

func TestNeverNegative(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := draw(t)
		o := g.run()
		for name, value := range o.damages() {
			if value < 0 || math.IsNaN(value) || math.IsInf(value, 0) {
				t.Errorf("%s: %g", name, value)
			}
		}
		if o.Bulk < g.ambient || o.Peak < o.Bulk || o.Face < o.Peak {
			t.Errorf("ambient %g, mean %g, peak %g, faces %g", g.ambient, o.Bulk, o.Peak, o.Face)
		}
	})
}

func TestMoreTakesMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := draw(t)
		base := g.run()

		heavier := g
		heavier.car.Mass *= rapid.Float64Range(1, 1.5).Draw(t, "heavier")
		atLeast(t, heavier.run(), base)

		harder := g
		harder.lap.Brakings = append([]duty.Braking(nil), g.lap.Brakings...)
		harder.lap.Brakings[0].Factor *= rapid.Float64Range(1, 2).Draw(t, "factor")
		atLeast(t, harder.run(), base)

		longer := g
		longer.sessions = append([]Session(nil), g.sessions...)
		longer.sessions[0].Laps++
		atLeast(t, longer.run(), base)

		hotter := g
		hotter.ambient += rapid.Float64Range(0, 20).Draw(t, "hotter")
		if o := hotter.run(); o.Peak < base.Peak-1e-6 {
			t.Errorf("hotter air cools the peak from %g to %g", base.Peak, o.Peak)
		}

		bigger := g
		bigger.axle.RingMass *= rapid.Float64Range(1, 2).Draw(t, "bigger")
		if o := bigger.run(); o.Peak > base.Peak+1e-6 {
			t.Errorf("a heavier ring heats the peak from %g to %g", base.Peak, o.Peak)
		}
	})
}

func TestSplitSession(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := draw(t)
		whole := g.run()
		first := g.sessions[0]
		at := float64(rapid.IntRange(0, int(first.Laps)).Draw(t, "at"))
		g.sessions = append([]Session{{Laps: at}, {Laps: first.Laps - at, Rest: first.Rest}}, g.sessions[1:]...)
		split := g.run()
		for name, value := range split.damages() {
			if !scalar.EqualWithinAbsOrRel(value, whole.damages()[name], 1e-15, 1e-12) {
				t.Errorf("%s: %g split, %g whole", name, value, whole.damages()[name])
			}
		}
		if split.Peak != whole.Peak || split.Bulk != whole.Bulk {
			t.Errorf("split %+v, whole %+v", split, whole)
		}
	})
}

func TestSplitRoad(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, a := car(), front()
		a.Front = rapid.Bool().Draw(t, "front")
		d := highway(v)
		one, two := rapid.Float64Range(0, 1e6).Draw(t, "one"), rapid.Float64Range(0, 1e6).Draw(t, "two")
		x, y, both := Road(v, a, d, one), Road(v, a, d, two), Road(v, a, d, one+two)
		atLeast(t, both, x)
		if !scalar.EqualWithinAbsOrRel(x.PadMean+y.PadMean, both.PadMean, 1e-15, 1e-12) {
			t.Errorf("%g and %g make %g", x.PadMean, y.PadMean, both.PadMean)
		}
	})
}
