package workbook

import (
	"fmt"
	"strings"

	"example.com/tripwear/planner"
)

// packing lists what goes in the boot against the room there is.
func (b *book) packing() *sheet {
	s := &sheet{name: "Packing", widths: []float64{38, 12, 12, 42, 9}}
	boot, mass := b.u.boot, b.u.mass
	s.title("Packing", "Spares and their tools against the boot.")
	s.add(left("Item"), right(boot.head("Volume")), right(mass.head("Weight")), left("Tools it takes along"), center("Packed"))
	s.head = 3
	box := look{box: true}
	for _, it := range b.p.Packing {
		s.add(text(look{weight: strong, box: true}, it.Name), boot.in(box, it.Volume), mass.in(box, it.Mass), text(box, strings.Join(it.Tools, ", ")), blank(look{input: true}))
	}
	if len(b.p.Packing) == 0 {
		s.span(look{}, "No spare to pack.")
	}
	b.room(s)
	return s
}

// room sets the packing against the boot.
func (b *book) room(s *sheet) {
	p, boot, mass := b.p.Boot, b.u.boot, b.u.mass
	line := func(l look, name string, volume, kg float64, note string) {
		s.add(text(l, name), boot.in(l, volume), mass.in(l, kg), text(l, note), blank(l))
	}
	line(look{total: true}, "Packing takes", p.UsedVolume, p.UsedMass, "")
	line(look{}, "Luggage takes", p.LuggageVol, p.LuggageKg, "")
	line(look{}, "Room in the boot, luggage taken off", p.Volume, p.Payload, "")
	line(look{weight: strong}, "Left over", p.Volume-p.UsedVolume, p.Payload-p.UsedMass, "")
	if p.Fits {
		s.span(look{weight: strong}, "IT FITS.")
		return
	}
	s.span(look{weight: stop}, "IT DOES NOT FIT: "+b.over(p))
}

// over says by how much the packing is too much.
func (b *book) over(p planner.Boot) string {
	var out []string
	if d := p.UsedVolume - p.Volume; d > 0 {
		out = append(out, fmt.Sprintf("%.0f %s too big", b.u.boot.of(d), b.u.boot.name))
	}
	if d := p.UsedMass - p.Payload; d > 0 {
		out = append(out, fmt.Sprintf("%.0f %s too heavy", b.u.mass.of(d), b.u.mass.name))
	}
	return strings.Join(out, " and ")
}
