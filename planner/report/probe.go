package report

import (
	"fmt"
	"math"
	"strings"

	"example.com/tripwear/profiles/quantity"
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
		t.fold("      ", r.Why+"."+t.steps(r.Pressure, r.Camber))
		if r.Camber != 0 && !math.IsInf(r.Trips, 1) {
			t.fold("      ", fmt.Sprintf("By the model that takes %s instead of %s on this trip (inside, middle, outside): a new tire lasts %.1f such trips instead of %.1f.",
				t.zones(r.Would), t.zones(r.Loss), r.TripsNew, r.Trips))
		}
	}
	t.note("Up to 20 F (11 K) across the tread is fine; the pressure comes first, one change at a time, then read again. The model knows no pressure, so its effect on wear is not worked out.")
}

// steps puts the changes to try in words.
func (t text) steps(pressure, camber float64) string {
	out, way := "", "more"
	if pressure < 0 {
		way = "less"
	}
	if pressure != 0 {
		out += fmt.Sprintf(" Try %s %s.", quantity.Inflation[t.units].Text(math.Abs(pressure)), way)
	}
	if camber != 0 {
		out += " Try " + quantity.Camber[t.units].Change(camber) + " of camber."
	}
	return out
}

// zones prints what a trip takes from three zones.
func (t text) zones(loss [3]float64) string {
	tread := quantity.Tread[t.units]
	for z := range loss {
		loss[z] = math.Max(0, loss[z])
	}
	return tread.Number(loss[0]) + ", " + tread.Number(loss[1]) + ", " + tread.Text(loss[2])
}
