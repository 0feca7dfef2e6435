package workbook

import (
	"fmt"
	"slices"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
)

// brakes shows pads, rotors, temperatures and fluid.
func (b *book) brakes() *sheet {
	s := &sheet{name: "Brakes", wide: true, side: 1, widths: pairs(4, 34, 9.5, 13.5)}
	s.title("Brakes", "Pads and rotors as the car stands, nothing renewed on the way. "+marks)
	b.warn(s)
	b.seen(s, profiles.Pads, profiles.Rotors, profiles.Fluid)
	pads := b.pick(profiles.Pads, planner.PadLining)
	cracks := b.pick(profiles.Rotors, planner.Crack)
	b.levels(s, "Pads: friction material at the thinnest end", pads)
	b.remaining(s, "Pads left at the thinnest end of each wheel (nominal)",
		"Line chart of the nominal pad thickness at each wheel, at the start and after each leg, with the limit.", pads)
	b.levels(s, "Rotors: crack life left", cracks)
	s.span(look{weight: quiet}, "A rotor's face overrides its forecast: heat checks that catch a fingernail are nearly the end, a crack at an edge is the end.")
	b.remaining(s, "Rotor crack life left at each wheel (nominal)",
		"Line chart of the nominal share of rotor crack life left at each wheel, at the start and after each leg.", cracks)
	b.levels(s, "Rotors: thickness", b.pick(profiles.Rotors, planner.Thickness))
	b.temperatures(s)
	return s
}

// temperatures lists the peaks of every circuit day and the fluid's margin to boiling.
func (b *book) temperatures(s *sheet) {
	days := slices.DeleteFunc(slices.Clone(b.driven), func(j int) bool { return b.p.Legs[j].Kind != profiles.CircuitLeg })
	s.keepRows(len(days) + 6)
	s.section("Temperatures on circuit, as planned (median)")
	heat, warmth := b.u.heat, b.u.warmth
	heads := []cell{left("Circuit day")}
	for _, name := range []string{"Front rotor peak", "Rear rotor peak", "Fluid peak"} {
		heads = append(heads, joined(center(heat.head(name)), 2)...)
	}
	s.add(append(heads, right(warmth.head("To boil")), center("5 – 95 %"))...)
	fluid := b.pick(profiles.Fluid, planner.BoilMargin)
	mid := look{across: "center"}
	for _, j := range days {
		l := b.p.Legs[j]
		cells := []cell{text(look{}, b.legName(j))}
		for _, peak := range []float64{l.RotorPeak[0], l.RotorPeak[1], l.FluidPeak} {
			cells = append(cells, joined(asPlanned(heat.in(mid, peak)), 2)...)
		}
		if len(fluid) > 0 {
			p := fluid[0]
			cells = append(cells, asPlanned(warmth.in(look{weight: choose(p.After[j].P50 <= p.Margin, strong, plain)}, p.After[j].P50)), asPlanned(text(look{weight: quiet, across: "center"}, band(warmth, p.After[j]))))
		}
		s.add(cells...)
	}
	if len(days) == 0 {
		s.span(look{weight: quiet}, "No circuit on this trip.")
	}
	if len(fluid) == 0 {
		return
	}
	p, last := fluid[0], len(b.p.Legs)-1
	s.span(look{weight: quiet}, fmt.Sprintf("Fluid: to boil is the least margin so far; wanted at least %.0f %s; chance of less on this trip %s, chance that it boils %s. A soft pedal ends the session whatever stands here.",
		warmth.of(p.Margin), warmth.name, planner.Chance(p.After[last].PMargin), planner.Chance(p.After[last].PLimit)))
}
