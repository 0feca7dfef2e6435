package report

import (
	"math"
	"strings"
	"testing"

	"example.com/tripwear/planner/labreport"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/oil"
)

// TestOilVerdict: an interval is longer, shorter or kept, and the ceiling is
// told where it came down.
func TestOilVerdict(t *testing.T) {
	for _, c := range []struct {
		next, ceiling float64
		says, not     string
	}{
		{8e6, 12e6, "KEEP it leaves the interval at 8000 km.", "Never beyond"},
		{9e6, 12e6, "LONGER it supports an interval of 9000 km instead of 8000 km.", "Never beyond"},
		{7e6, 11e6, "SHORTER it supports an interval of 7000 km, no longer 8000 km: change there. Never beyond 11000 km, where it was 12000 km.", "KEEP"},
	} {
		r := labreport.Reading{Interval: 8e6, Ceiling: 12e6, Next: c.next, NextCeiling: c.ceiling}
		r.FirstLimit = math.Inf(1)
		got := said(quantity.Metric, func(p printer) { oilText{p, r}.verdict() })
		if got = strings.ReplaceAll(got, ",000", "000"); !strings.Contains(got, c.says) || strings.Contains(got, c.not) || strings.Contains(got, "straight lines") {
			t.Errorf("%+v: %s", c, got)
		}
	}
}

// TestOilReasons: where a figure's line gets to its limit is told; a line that
// is there already, or never comes there, is not.
func TestOilReasons(t *testing.T) {
	for at, want := range map[float64]bool{9e6: true, 1: true, 0: false, math.Inf(1): false} {
		var r labreport.Reading
		r.Readings = []oil.Reading{{Figure: oil.Fuel, Why: "below its limit", LimitAt: at}}
		if got := said(quantity.Metric, func(p printer) { oilText{p, r}.reasons() }); strings.Contains(got, "its line gets there at") != want {
			t.Errorf("at %g m: %s", at, got)
		}
	}
}

// TestOilFigures: shares are in percent, coolant is found or not, all by the
// precision that laboratories give; rates are for 1,000 mi or km.
func TestOilFigures(t *testing.T) {
	for _, c := range []struct {
		figure oil.Figure
		v      float64
		want   string
	}{{oil.Fuel, 0.0234, "2.3"}, {oil.Water, 0.0012, "0.12"}, {oil.Glycol, 0, "none"}, {oil.Glycol, 0.1, "found"}, {oil.KV100, 12.34, "12.3"}, {oil.BaseNumber, 6.04, "6.0"}, {"iron", 23.6, "24"}} {
		if got := amount(c.figure, c.v); got != c.want {
			t.Errorf("%s %g: %s, want %s", c.figure, c.v, got, c.want)
		}
	}
	for _, c := range []struct {
		figure oil.Figure
		rate   float64
		u      quantity.System
		want   string
	}{
		{"iron", 2e-6, quantity.Metric, "+2.00"}, {"iron", -2e-6, quantity.US, "-3.22"}, {oil.Fuel, 1e-9, quantity.Metric, "+0.10"},
		{oil.Glycol, 1, quantity.US, "-"}, {"iron", math.NaN(), quantity.US, "-"},
	} {
		if got := (oilText{printer: newPrinter(nil, View{Units: c.u})}).rate(oil.Reading{Figure: c.figure, Rate: c.rate}); got != c.want {
			t.Errorf("%s at %g: %s, want %s", c.figure, c.rate, got, c.want)
		}
	}
	nan := math.NaN()
	for _, c := range []struct {
		least, most float64
		want        string
	}{{nan, nan, "-"}, {2, nan, "least 2"}, {nan, 9, "most 9"}, {2, 9, "2-9"}, {nan, math.Inf(1), "-"}} {
		if got := bounds(oil.Reading{Figure: "iron", Least: c.least, Most: c.most}); got != c.want {
			t.Errorf("%g to %g: %s, want %s", c.least, c.most, got, c.want)
		}
	}
}
