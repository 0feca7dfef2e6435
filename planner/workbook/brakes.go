package workbook

import (
	"fmt"
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// brakes shows pads, rotors, temperatures and fluid.
func brakes(v view, all worn) *sheet {
	s := levelsOn(brakesName, "Pads and rotors as the car stands, nothing replaced on the way. "+marks, pairs(4, 34, 9.5, 13.5), v, all)
	for _, m := range []kind.Measure{kind.PadLining, kind.Crack, kind.Thickness} {
		s.measured(m)
	}
	v.temperatures(s.sheet)
	return s.sheet
}

// temperatures lists the heat of every circuit day and the fluid's margin to boiling.
func (v view) temperatures(s *sheet) {
	days := slices.DeleteFunc(slices.Clone(v.driven), func(j int) bool { return v.Legs[j].Kind != profiles.CircuitLeg })
	s.keepRows(2*len(days) + 6)
	s.section("Temperatures on circuit, as planned (median)")
	heat, warmth := v.u.heat, v.u.warmth
	heads := []cell{left("Circuit day")}
	for _, name := range []string{"Front rotor bulk", "Rear rotor bulk", "Fluid peak"} {
		heads = append(heads, joined(center(heat.head(name)), 2)...)
	}
	s.add(append(heads, right(warmth.head("To boil")), center("5 – 95 %"))...)
	fluid := v.points(kind.BoilMargin)
	mid := look{across: "center"}
	for _, j := range days {
		l := v.Legs[j]
		cells := []cell{text(look{}, v.legName(j))}
		for _, peak := range []float64{l.RotorBulk[0], l.RotorBulk[1], l.FluidPeak} {
			cells = append(cells, joined(asPlanned(heat.in(mid, peak)), 2)...)
		}
		if len(fluid) > 0 {
			p := fluid[0]
			cells = append(cells, asPlanned(warmth.in(look{weight: choose(p.After[j].P50 <= p.Margin, strong, plain)}, p.After[j].P50)), asPlanned(text(look{weight: quiet, across: "center"}, warmth.band(p.After[j]))))
		}
		s.add(cells...)
	}
	for _, j := range days {
		l := v.Legs[j]
		s.span(look{weight: quiet}, fmt.Sprintf("%s: the rotors' faces flash to %.0f %s in front and %.0f %s behind at a braking; their bulk is what paint or a gun shows.",
			v.legName(j), heat.of(l.RotorFace[0]), heat.name, heat.of(l.RotorFace[1]), heat.name))
	}
	if len(days) == 0 {
		s.span(look{weight: quiet}, "No circuit on this trip.")
	}
	if len(fluid) == 0 {
		return
	}
	p, last := fluid[0], v.last()
	s.span(look{weight: quiet}, fmt.Sprintf("Fluid: to boil is the least margin so far; wanted at least %.0f %s; chance of less on this trip %s, chance that it boils %s. A soft pedal ends the session whatever stands here.",
		warmth.of(p.Margin), warmth.name, quantity.Chance(p.After[last].PMargin), quantity.Chance(p.After[last].PLimit)))
}
