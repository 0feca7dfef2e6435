package report

import (
	"math"
	"strings"

	"example.com/tripwear/planner/page"
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
		drift := quantity.Drift[t.Units]
		if t.Units == quantity.Metric && math.Abs(s) < 0.01 {
			drift.Decimals = 1
		}
		parts = append(parts, t.Corners[p].Place+" "+drift.Text(s))
	}
	if len(parts) > 0 {
		t.Note("Dragged sideways by the toe (toe-in positive): %s.", strings.Join(parts, ", "))
	}
}

// probes says what the tread temperatures ask for.
func (t text) probes() {
	if len(t.Probed) == 0 {
		return
	}
	t.Head("Tread temperatures")
	widths := page.Columns{-6, -23, 6, -11, 0}
	table := t.Table(widths, "", "inside/middle/outside", "spread", "  verdict", "tread measured")
	unit := quantity.Heat[t.Units]
	for _, r := range t.Probed {
		var heat []string
		for _, c := range r.Heat {
			heat = append(heat, unit.Nearest(c, 1))
		}
		table.Row("  "+r.Place, strings.Join(heat, "/")+" "+unit.Name, t.Warmth(r.Spread), "  "+r.Concern, string(r.Wear))
		t.Fold("      ", r.Say(t.Units))
		if effect := r.Effect(t.Units); effect != "" {
			t.Fold("      ", effect)
		}
	}
	t.Note("Up to %s across the tread is fine; the pressure comes first, one change at a time, then read again. The model knows no pressure, so its effect on wear is not worked out.", t.Warmth(tire.ProbeSpread))
}
