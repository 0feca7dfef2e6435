package planner

import (
	"math"
	"strings"
	"testing"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// line is the oil set of a plan of the demo with one report.
func line(t *testing.T, change func(*profiles.OilReport)) (p *plan.Plan, s plan.Set, interval, ceiling float64) {
	t.Helper()
	f, trip := demo(t, "juniper")
	f.OilReports = []profiles.OilReport{sampled(t, f, change)}
	p = planned(t, f, trip)
	s = setOf(p, t, "oil")
	return p, s, (s.Points[0].New - s.Points[0].Margin) / 1609.344, s.Points[0].New / 1609.344
}

// A clean report after a run past the interval lengthens it for the next plan,
// by a quarter at most; a flag shortens it at once. Common practice, no source.
func TestReportMovesInterval(t *testing.T) {
	p, s, interval, ceiling := line(t, func(*profiles.OilReport) {})
	if math.Abs(interval-1.25*3500) > 0.5 || math.Abs(ceiling-6000) > 0.5 || !p.Safe {
		t.Errorf("clean: interval %.0f, ceiling %.0f, safe %v", interval, ceiling, p.Safe)
	}
	if !strings.Contains(strings.Join(s.Seen, ";"), "the report of 30 Aug 2026 lengthens the interval by 25 %") {
		t.Errorf("said: %v", s.Seen)
	}
	_, s, interval, _ = line(t, func(r *profiles.OilReport) { delete(r.Sources, "fill.added") })
	if said := strings.Join(s.Seen, ";"); math.Abs(interval-3500) > 0.5 || !strings.Contains(said, "leaves the interval as it is") {
		t.Errorf("clean, topped up with nobody knows how much: interval %.0f, said %v", interval, s.Seen)
	}
	heat := 20 + 100*math.Sqrt(172*0.745699872/150) // deg C, assumed at a usual pace and 20 deg C
	equivalent := 3350 - 4.5*60 + 4.5*60*math.Pow(2, (heat-100)/10)
	_, s, interval, ceiling = line(t, func(r *profiles.OilReport) { r.Used.Fuel = 0.06 })
	if math.Abs(interval-0.9*3500) > 0.5 || math.Abs(ceiling-equivalent) > 1 {
		t.Errorf("6 %% of fuel at %.0f equivalent miles: interval %.0f, ceiling %.0f", equivalent, interval, ceiling)
	}
	if said := strings.Join(s.Seen, ";"); !strings.Contains(said, "flags fuel") || !strings.Contains(said, "shortens") {
		t.Errorf("said: %v", s.Seen)
	}
}

// Coolant in the oil stops the engine whatever fill it was found in; a
// viscosity far out stops the fill that it was found in, which can be changed.
func TestReportStops(t *testing.T) {
	for name, row := range map[string]struct {
		change func(*profiles.OilReport)
		want   plan.Action
		safe   bool
	}{
		"glycol in an old fill": {func(r *profiles.OilReport) { r.Used.Glycol = "found" }, plan.DoNotTake, false},
		"thin in this fill": {func(r *profiles.OilReport) {
			r.Used.KV100, r.Sampled = 11, time.Date(2027, 4, 1, 0, 0, 0, 0, time.UTC)
		}, plan.ReplaceBefore, false},
	} {
		p, s, _, _ := line(t, row.change)
		if s.Decision.Action != row.want || p.Safe != row.safe {
			t.Errorf("%s: %s, safe %v: %s", name, s.Decision.Action, p.Safe, s.Decision.Reason)
		}
	}
	p, s, interval, _ := line(t, func(r *profiles.OilReport) { r.Used.KV100 = 11 })
	if len(s.Stop) > 0 || !p.Safe || interval >= 3500 {
		t.Errorf("thin in a fill that is out of the engine: stop %v, interval %.0f", s.Stop, interval)
	}
}

// The gauge's temperature counts instead of the assumed one, doubling the
// ageing with 10 K, the trade's rule (common practice, no source); one at which
// the oil is spent is warned about.
func TestOilGauge(t *testing.T) {
	lost := func(temp quantity.Temperature) (float64, *plan.Plan, plan.Set) {
		f, trip := demo(t, "juniper")
		f.Car.OilTemp = temp
		p := planned(t, f, trip)
		return setOf(p, t, "oil").Points[0].Loss[1], p, setOf(p, t, "oil")
	}
	assumed, _, none := lost(0)
	heat := (75-32)/1.8 + 100*math.Sqrt(172*0.745699872/150) // deg C, at the demo's 75 F, 172 hp and pace of 0.80
	cool, _, gauge := lost(quantity.Temperature(heat - 5))
	if math.Abs(assumed/cool-math.Sqrt2) > 1e-6 {
		t.Errorf("%.1f C assumed against 5 less by gauge: x%.4f", heat, assumed/cool)
	}
	if !strings.Contains(none.Measured, "no gauge, so the oil's heat on circuit is assumed") || strings.Contains(gauge.Measured, "assumed") {
		t.Errorf("said %q and %q", none.Measured, gauge.Measured)
	}
	if _, p, _ := lost(142); !strings.Contains(strings.Join(p.Warnings, "\n"), "as hot as your gauge shows") {
		t.Errorf("142 C: %v", p.Warnings)
	}
}
