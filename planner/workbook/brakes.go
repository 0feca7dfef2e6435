package workbook

import (
	"fmt"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
)

// brakes shows pads, rotors, temperatures and fluid.
func (b *book) brakes() *sheet {
	s := &sheet{name: "Brakes", wide: true, side: 1, widths: pairs(4)}
	s.title("Brakes", "Pads and rotors as the car stands, nothing renewed on the way. A rotor's face overrides its forecast: checks that catch a fingernail are nearly the end, a crack at an edge is. "+marks)
	pads := b.pick(profiles.Pads, planner.PadLining)
	cracks := b.pick(profiles.Rotors, planner.Crack)
	b.levels(s, "Pads: friction material at the thinnest end", pads)
	b.remaining(s, "Pads left at the thinnest end of each wheel (median)",
		"Line chart of the median pad thickness at each wheel, at the start and after each leg, with the limit.", pads)
	s.pageBreak()
	b.levels(s, "Rotors: crack life left", cracks)
	b.remaining(s, "Rotor crack life left at each wheel (median)",
		"Line chart of the median share of rotor crack life left at each wheel, at the start and after each leg.", cracks)
	s.pageBreak()
	b.levels(s, "Rotors: thickness", b.pick(profiles.Rotors, planner.Thickness))
	b.temperatures(s)
	return s
}

// temperatures lists the peaks of every circuit day and the fluid's margin to boiling.
func (b *book) temperatures(s *sheet) {
	s.section("Temperatures on circuit")
	heat, warmth := b.u.heat, b.u.warmth
	s.heads("Circuit day", heat.head("Front rotor peak"), "", heat.head("Rear rotor peak"), "", heat.head("Fluid peak"), "",
		warmth.head("To boiling"), "5 – 95 %")
	top := len(s.rows)
	s.join(top, 2, 3)
	s.join(top, 4, 5)
	s.join(top, 6, 7)
	fluid := b.pick(profiles.Fluid, planner.BoilMargin)
	any := false
	for _, j := range b.driven {
		l := b.p.Legs[j]
		if l.Kind != profiles.CircuitLeg {
			continue
		}
		any = true
		cells := []cell{
			text(look{}, b.legName(j)),
			heat.in(look{}, l.RotorPeak[0]), blank(look{}),
			heat.in(look{}, l.RotorPeak[1]), blank(look{}),
			heat.in(look{}, l.FluidPeak), blank(look{}),
		}
		if len(fluid) > 0 {
			p := fluid[0]
			cells = append(cells, warmth.marked(p, p.After[j].P50), text(look{weight: quiet, across: "center"}, band(warmth, p.After[j])))
		}
		s.add(cells...)
	}
	if !any {
		s.span(look{weight: quiet}, "No circuit on this trip.")
	}
	if len(fluid) == 0 {
		return
	}
	p, last := fluid[0], len(b.p.Legs)-1
	s.span(look{weight: quiet}, fmt.Sprintf("Fluid: wanted at least %.0f %s from boiling; chance of less on this trip %s, chance that it boils %s. A soft pedal ends the session whatever stands here.",
		warmth.of(p.Margin), warmth.name, planner.Chance(p.After[last].PMargin), planner.Chance(p.After[last].PLimit)))
}
