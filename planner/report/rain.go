package report

import (
	"fmt"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// wetRule is the tread (m) below which wet stops lengthen quickly, by the
// tables that the stock profiles name.
var wetRule = quantity.TreadRule[quantity.US].SI(4)

// rain says what the tread means on the legs with rain.
func (t text) rain() {
	first := true
	for j, l := range t.Legs {
		for _, w := range l.Wet {
			if first {
				first = false
				t.head("Rain")
				t.line("      %s%s", pad("", 24), "tires         left    planes  flooded  stop")
			}
			mark := ""
			if w.Shallow {
				mark = " !"
			}
			t.line("  %2d  %s%s%s%s%s%s", j+1, pad(cut(l.Name, 23), 24), pad(w.Name, 11), padLeft(quantity.Tread[t.units].Text(w.Tread), 10),
				padLeft(quantity.Velocity[t.units].Text(w.Planes), 9), padLeft(quantity.Velocity[t.units].Text(w.Flooded), 9),
				padLeft(fmt.Sprintf("x%.2f", w.Stop), 7)+mark)
		}
	}
	if first {
		return
	}
	t.fold("  ", "Left: shallowest zone at the end of the leg, with what is renewed before it. Planes: where hydroplaning begins in "+quantity.Water[t.units].Text(plan.WetWater)+
		" of water on a usual road (Gallaway); flooded: on water deeper than the tread (NASA); both guides, at the pressure of the tires' profile. Stop: from 60 mph in the wet against full tread, a published test. ! is below "+quantity.TreadRule[t.units].Text(wetRule)+", or what your profile wants in rain.")
}
