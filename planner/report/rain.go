package report

import (
	"fmt"

	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// wetRule is the tread (m) below which wet stops lengthen quickly, by the
// tables that the stock profiles name.
var wetRule = quantity.TreadRule[quantity.US].SI(4)

// wetFrom is the speed (m/s) of the published test of wet stops.
var wetFrom = quantity.Velocity[quantity.US].SI(60)

// rain says what the tread means on the legs with rain.
func (t text) rain() {
	widths := page.Columns{4, -t.Fit(25), -12, 10, 9, 9, 7, 0}
	var table *page.Table
	for j, l := range t.Legs {
		for _, w := range l.Wet {
			if table == nil {
				t.Head("Rain")
				table = t.Table(widths, "", "", " tires", "left", "planes", "flooded", "stop")
			}
			mark := ""
			if w.Shallow {
				mark = " !"
			}
			speed := quantity.Velocity[t.Units].Text
			table.Row(fmt.Sprint(j+1), "  "+l.Name, " "+w.Name, quantity.Tread[t.Units].Text(w.Tread), speed(w.Planes), speed(w.Flooded), fmt.Sprintf("x%.2f", w.Stop), mark)
		}
	}
	if table == nil {
		return
	}
	t.Note("Left: shallowest zone at the end of the leg, with what is replaced before it. Planes: where hydroplaning begins in %s of water on a usual road (Gallaway); flooded: on water deeper than the tread (NASA); both guides, at the pressure of the tires' profile. Stop: from %s in the wet against full tread, a published test. ! is below %s, or what your profile wants in rain.",
		quantity.Water[t.Units].Text(plan.WetWater), quantity.Velocity[t.Units].Text(wetFrom), quantity.TreadRule[t.Units].Text(wetRule))
}
