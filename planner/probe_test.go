package planner

import (
	"math"
	"testing"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// probed plans the demo with one wheel's temperatures (F) and depths (32nds;
// none where nil).
func probed(t *testing.T, heat [3]float64, depths []float64) (*plan.Plan, plan.Probing) {
	t.Helper()
	f, trip := demo(t, "juniper")
	for _, at := range []string{"LF", "RF", "LR", "RR"} {
		fitted(f, profiles.Tire, at).Probe = nil
	}
	e := fitted(f, profiles.Tire, "LF")
	e.Probe = map[string][]quantity.Temperature{"LF": nil}
	for _, c := range heat {
		e.Probe["LF"] = append(e.Probe["LF"], quantity.Temperature((c-32)/1.8))
	}
	delete(e.Tread, "LF")
	for _, d := range depths {
		e.Tread["LF"] = append(e.Tread["LF"], quantity.Length(d*thirtyTwo))
	}
	p := planned(t, f, trip)
	if len(p.Probed) != 1 || p.Probed[0].Place != "LF" {
		t.Fatalf("%d wheels probed", len(p.Probed))
	}
	return p, p.Probed[0]
}

// The shop guides' rule, end to end: 20 degrees Fahrenheit across the tread,
// pressure before camber, and no advice on camber that the measured depths do
// not bear out. Common practice, no source.
func TestProbing(t *testing.T) {
	even := []float64{7, 7, 7}
	for _, row := range []struct {
		name             string
		heat             [3]float64
		depths           []float64
		concern          string
		pressure, camber float64 // signs
	}{
		{"fine at the limit", [3]float64{190, 180, 170}, even, "fine", 0, 0},
		{"over-inflated first", [3]float64{200, 195, 165}, even, "act", -1, 0},
		{"more negative camber", [3]float64{170, 180, 195}, even, "watch", 0, -1},
		{"more negative camber, outside worn", [3]float64{170, 180, 195}, []float64{7, 6.5, 6}, "watch", 0, -1},
		{"contradicted by an inside worn", [3]float64{170, 180, 195}, []float64{6, 6.5, 7}, "watch", 0, 0},
		{"under-inflated", [3]float64{185, 170, 183}, even, "watch", 1, 0},
		{"outside hotter, and fine", [3]float64{171, 180, 189}, even, "fine", 0, 0},
		{"hot inside, even tread", [3]float64{200, 186, 172}, even, "watch", 0, 0},
		{"hot inside, inside worn", [3]float64{200, 186, 172}, []float64{6, 6.5, 7}, "watch", 0, 1},
		{"hot inside, outside worn", [3]float64{200, 186, 172}, []float64{7, 6.5, 6}, "watch", 0, 0},
		{"hot inside, never measured", [3]float64{200, 186, 172}, nil, "watch", 0, 0},
	} {
		_, r := probed(t, row.heat, row.depths)
		if r.Concern != row.concern || sign(r.Pressure) != row.pressure || sign(r.Camber) != row.camber || r.Why == "" {
			t.Errorf("%s: %+v", row.name, r)
		}
	}
}

func sign(x float64) float64 {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}

// The suggested change is worked out by the model: more negative camber moves
// the wear inward and keeps its sum, on that wheel alone; what it was is the
// plan's own figure.
func TestProbingEffect(t *testing.T) {
	p, r := probed(t, [3]float64{170, 180, 195}, []float64{7, 6.5, 6})
	was, would := 0.0, 0.0
	for z, zone := range kind.Zones {
		if lost := lost(setOf(p, t, "tires-front"), t, "LF", zone); math.Abs(lost-r.Loss[z]) > 1e-12 {
			t.Errorf("%s: %g, the plan has %g", zone, r.Loss[z], lost)
		}
		was, would = was+r.Loss[z], would+r.Would[z]
	}
	within(t, "inside", r.Would[0]/r.Loss[0], 1.01, 1.5)
	within(t, "outside", r.Would[2]/r.Loss[2], 0.5, 0.99)
	within(t, "in all", would/was, 1-1e-9, 1+1e-9)
	if !(r.Trips > 0 && r.TripsNew > 0) || math.IsInf(r.Trips, 0) {
		t.Errorf("lasts %g trips, %g changed", r.Trips, r.TripsNew)
	}
	_, none := probed(t, [3]float64{185, 180, 175}, nil)
	if none.Would != [3]float64{} || none.Loss == [3]float64{} {
		t.Errorf("nothing to change: %+v", none)
	}
}

// Toe scrub, trigonometry: 0.05 degrees drag a front wheel 4.61 ft a mile,
// 0.12 a rear one 11.06.
func TestScrub(t *testing.T) {
	f, trip := demo(t, "juniper")
	p := planned(t, f, trip)
	for i, want := range []float64{4.61, 4.61, 11.06, 11.06} {
		if got := 5280 * p.Scrub[i]; math.Abs(got-want) > 0.01 {
			t.Errorf("wheel %d: %.2f ft a mile, want %.2f", i, got, want)
		}
	}
}
