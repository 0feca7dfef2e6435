package planner

import (
	"math"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/brake"
)

// The margin by session is the plan's own on the last day of each visit, and
// each change does what it should: fresh fluid boils higher, ducts and shorter
// sessions keep it cooler, a later session never has more.
func TestCooling(t *testing.T) {
	f, trip := demo(t, "juniper")
	fitted(f, profiles.Fluid, "system").Since.Date = time.Date(2025, 5, 1, 0, 0, 0, 0, time.UTC)
	p := planned(t, f, trip)
	part := f.Parts["fluid"].Fluid
	boils := func(years float64) float64 {
		fill := brake.Fluid{Dry: float64(part.Dry), Wet: float64(part.Wet), Uptake: float64(part.Uptake)}
		return fill.Boils(fill.Water(years))
	}
	if len(p.Cooling) != 2 {
		t.Fatalf("%d circuit visits", len(p.Cooling))
	}
	for _, c := range p.Cooling {
		leg := p.Legs[c.Leg]
		if leg.Kind != profiles.CircuitLeg || leg.Day != leg.Days || len(c.BySession) != leg.Sessions {
			t.Fatalf("leg %d, %d sessions", c.Leg, len(c.BySession))
		}
		if nominal := boils(c.Years) - leg.FluidPeak; math.Abs(nominal-c.Margin) > 1e-6 {
			t.Errorf("%s: margin %.3f K, the plan's leg has %.3f", leg.Name, c.Margin, nominal)
		}
		for k := 1; k < len(c.BySession); k++ {
			if c.BySession[k] > c.BySession[k-1]+1e-9 {
				t.Errorf("%s: session %d has more margin than the one before", leg.Name, k+1)
			}
		}
		if !(c.Flushed > c.Margin+20 && c.Ducted > c.Margin+5 && c.Shorter > c.Margin) || c.ShortTime != 900 {
			t.Errorf("%s: %+v", leg.Name, c)
		}
		if math.Abs(c.Years-2.04) > 0.03 {
			t.Errorf("%s: fluid of 1 May 2025 is %.2f years old", leg.Name, c.Years)
		}
		t.Logf("%s: %.0f K, flushed %.0f, ducted %.0f, %.0f min %.0f", leg.Name, c.Margin, c.Flushed, c.Ducted, c.ShortTime/60, c.Shorter)
	}
}

// TestDryFluid: a fluid said to take up no water is what it is when new,
// whatever a tester or its colour says; the figures stay figures.
func TestDryFluid(t *testing.T) {
	var levels [2][]plan.Band
	for i := range levels {
		f, trip := demo(t, "juniper")
		e := fitted(f, profiles.Fluid, "system")
		f.Parts[e.Part].Fluid.Uptake = 0
		e.Water = 0
		if i == 1 {
			e.Water, e.Color = 0.02, "dark"
		}
		s := setOf(planned(t, f, trip), t, "fluid")
		levels[i] = s.Points[0].After
		if s.Measured != "water estimated from its age" {
			t.Errorf("measured: %q", s.Measured)
		}
	}
	if diff := cmp.Diff(levels[0], levels[1]); diff != "" {
		t.Errorf("tested and dark against neither (-want +got)\n%s", diff)
	}
}

// Shorter sessions are suggested by three quarters, in whole five minutes, down
// to ten: of 20 minutes 15, of 26 minutes 15, of 13 minutes and 20 seconds 10;
// shorter ones are left as they are.
func TestShorterSessions(t *testing.T) {
	for seconds, want := range map[float64]float64{1200: 900, 1590: 900, 1600: 1200, 800: 600, 799: 0} {
		f, _ := demo(t, "juniper")
		p := one(t, f, "heron-flats", func(l *profiles.Leg) { l.Sessions.Each = quantity.Duration(seconds) })
		if c := p.Cooling[0]; c.ShortTime != want || (c.Shorter > c.Margin) != (want > 0) {
			t.Errorf("sessions of %g s: %g s would leave %g K instead of %g, want %g s", seconds, c.ShortTime, c.Shorter, c.Margin, want)
		}
	}
}

// TestDarkFluid: fluid found dark has the margin of fluid measured at the water
// that wet fluid has, 3.7 % (49 CFR 571.116), within what a trip adds.
func TestDarkFluid(t *testing.T) {
	margin := func(found func(e *profiles.Fitted)) float64 {
		f, trip := demo(t, "juniper")
		e := fitted(f, profiles.Fluid, "system")
		e.Since.Date, e.Water, e.Color = departure, 0, ""
		found(e)
		after := setOf(planned(t, f, trip), t, "fluid").Points[0].After
		return after[len(after)-1].P50
	}
	fresh, dark, wet := margin(func(*profiles.Fitted) {}), margin(func(e *profiles.Fitted) { e.Color = "dark" }), margin(func(e *profiles.Fitted) { e.Water = 0.037 })
	if math.Abs(dark-wet) > 1 || fresh < dark+30 {
		t.Errorf("fresh %.1f K, dark %.1f K, measured wet %.1f K", fresh, dark, wet)
	}
}
