package report

import (
	"fmt"

	"example.com/tripwear/profiles/quantity"
)

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
			t.line("  %2d  %s%s%s%s%s%s", j+1, pad(cut(l.Name, 23), 24), pad(w.Name, 11), padLeft(t.units.Tread(quantity.Length(w.Tread)), 10),
				padLeft(t.units.Speed(quantity.Speed(w.Planes)), 9), padLeft(t.units.Speed(quantity.Speed(w.Flooded)), 9),
				padLeft(fmt.Sprintf("x%.2f", w.Stop), 7)+mark)
		}
	}
	if first {
		return
	}
	water, depth := "0.10 in", "4/32 in"
	if t.units == quantity.Metric {
		water, depth = "2.5 mm", "3.2 mm"
	}
	t.fold("  ", "Left: shallowest zone at the end of the leg, with what is renewed before it. Planes: where hydroplaning begins in "+water+
		" of water on a usual road (Gallaway); flooded: on water deeper than the tread (NASA); both guides, at the pressure of the tires' profile. Stop: from 60 mph in the wet against full tread, a published test. ! is below "+depth+", or what your profile wants in rain.")
}
