package report

import (
	"math"
	"strings"

	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/tire"
)

// scrub says how far the toe drags each wheel sideways.
func (t text) scrub() {
	var parts []string
	for p, s := range t.Scrub {
		if s == 0 {
			continue
		}
		drift := quantity.Drift[t.units]
		if t.units == quantity.Metric && math.Abs(s) < 0.01 {
			drift.Decimals = 1
		}
		parts = append(parts, t.Corners[p].Place+" "+drift.Text(s))
	}
	if len(parts) > 0 {
		t.note("Dragged sideways by the toe (toe-in positive): %s.", strings.Join(parts, ", "))
	}
}

// probes says what the tread temperatures ask for.
func (t text) probes() {
	if len(t.Probed) == 0 {
		return
	}
	t.head("Tread temperatures")
	widths := columns{-6, -23, 6, -11, 0}
	t.row(widths, "", "inside/middle/outside", "spread", "  verdict", "tread measured")
	unit := quantity.Heat[t.units]
	for _, r := range t.Probed {
		var heat []string
		for _, c := range r.Heat {
			heat = append(heat, unit.Nearest(c, 1))
		}
		t.row(widths, "  "+r.Place, strings.Join(heat, "/")+" "+unit.Name, t.warmth(r.Spread), "  "+r.Concern, string(r.Wear))
		t.fold("      ", r.Say(t.units))
		if effect := r.Effect(t.units); effect != "" {
			t.fold("      ", effect)
		}
	}
	t.note("Up to %s across the tread is fine; the pressure comes first, one change at a time, then read again. The model knows no pressure, so its effect on wear is not worked out.", t.warmth(tire.ProbeSpread))
}
