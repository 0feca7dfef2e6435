package workbook

import (
	"fmt"
	"strings"
)

// Columns of the Packing sheet that formulas point to.
const (
	bootVolume = 2
	bootMass   = 3
)

// slack is what rounding may leave of a boot that is just full.
const slack = 1e-9

var bootWidths = []float64{36, 11, 11, 38, 8, 9}

// bootRoom is where the sums of the lists stand.
type bootRoom struct{ pay, volume, mass ref }

// packing lists what goes in the boot against the room there is.
func (b *book) packing() {
	s := b.boot
	boot, mass := b.u.boot, b.u.mass
	s.title("Packing", "Spares and their tools against the boot. Write in what the things and the luggage really take; 0 leaves a thing at home.")
	s.warn(whenever(b.spent(), "ROOM OR PRICES CHANGED: the sums are live; what to pack was decided for the room as planned.", whenever(b.changed(), choiceMessage, `""`)))
	s.add(left("Item"), right(boot.head("Volume")), right(mass.head("Weight")), left("How much"), center("Packed"), left("Changed"))
	s.head = len(s.rows)
	first := s.next()
	for _, it := range b.p.Packing {
		b.room(s, text(look{weight: strong, box: true}, it.Name), it.Volume, it.Mass, it.Quantity(b.u.system), blank(look{input: true}))
	}
	if len(b.p.Packing) == 0 {
		s.span(look{}, "No spare to pack.")
	}
	b.against(s, first, s.next()-1)
	if len(b.p.Tools) == 0 {
		return
	}
	s.section("Tools to take, as planned; they count with the luggage")
	for _, t := range b.p.Tools {
		cells := append([]cell{text(look{box: true}, t.Name)}, joined(text(look{weight: quiet, box: true}, "for "+strings.Join(t.For, ", ")), 3)...)
		s.add(append(cells, blank(look{input: true}), blank(look{box: true}))...)
	}
}

// room is a row whose volume and weight are inputs.
func (b *book) room(s *sheet, name cell, volume, kg float64, note string, end cell) (v, m ref) {
	n, in, box := s.next(), look{input: true}, look{box: true}
	v, m = s.at(bootVolume, n, tidy(b.u.boot.of(volume))), s.at(bootMass, n, tidy(b.u.mass.of(kg)))
	at := func(i int) string { return s.hiddenAt(i, n, 0).in(s) }
	for _, r := range []ref{v, m} {
		s.restrict(r.in(s), rule{most: 99_999})
	}
	plainBoot, plainMass := number(look{}, b.u.boot.format, v.v), number(look{}, b.u.mass.format, m.v)
	s.add(name, number(in, b.u.boot.format, v.v), number(in, b.u.mass.format, m.v), text(box, note), end,
		told(look{box: true, weight: warning}, fmt.Sprintf(`IF(%s>0,"changed","")`, at(0)), ""))
	s.hide(n, live(look{}, "0", fmt.Sprintf("IF(OR(%s<>%s,%s<>%s),1,0)", v.in(s), at(1), m.in(s), at(2)), 0), plainBoot, plainMass)
	return v, m
}

// against sets the packing against the boot.
func (b *book) against(s *sheet, first, last int) {
	p, boot, mass := b.p.Boot, b.u.boot, b.u.mass
	all := func(col int) string {
		return fmt.Sprintf("SUM(%s)", s.at(col, first, 0).upTo(s.at(col, last, 0), s))
	}
	add := func(l look, name, volume string, v float64, weight string, kg float64) (ref, ref) {
		n := s.add(text(l, name), live(l, boot.format, volume, boot.of(v)), live(l, mass.format, weight, mass.of(kg)), blank(l), blank(l), blank(l))
		return s.at(bootVolume, n, boot.of(v)), s.at(bootMass, n, mass.of(kg))
	}
	usedV, usedM := add(look{total: true}, "Packing takes", all(bootVolume), p.UsedVolume, all(bootMass), p.UsedMass)
	luggageV, luggageM := b.room(s, text(look{}, "Luggage takes"), p.LuggageVol, p.LuggageKg, "", blank(look{box: true}))
	bootV, bootM := b.room(s, text(look{}, "The boot holds"), p.Volume+p.LuggageVol, p.Payload+p.LuggageKg, "", blank(look{box: true}))
	leave := func(boot, luggage, used ref) string {
		return fmt.Sprintf("%s-%s-%s", boot.in(s), luggage.in(s), used.in(s))
	}
	b.fits.volume, b.fits.mass = add(look{weight: strong}, "Left over", leave(bootV, luggageV, usedV), p.Volume-p.UsedVolume, leave(bootM, luggageM, usedM), p.Payload-p.UsedMass)
	v, m := b.fits.volume, b.fits.mass
	formula := fmt.Sprintf(`IF(AND(%[1]s>=-%[3]s,%[2]s>=-%[3]s),"IT FITS.","IT DOES NOT FIT: "&IF(%[1]s<-%[3]s,FIXED(-%[1]s,0,TRUE)&%[4]s,"")&IF(AND(%[1]s<-%[3]s,%[2]s<-%[3]s)," and ","")&IF(%[2]s<-%[3]s,FIXED(-%[2]s,0,TRUE)&%[5]s,""))`,
		v.in(s), m.in(s), literal(slack), quoted(" "+boot.name+" too big"), quoted(" "+mass.name+" too heavy"))
	verdict := "IT FITS."
	if v.v < -slack || m.v < -slack {
		verdict = "IT DOES NOT FIT: " + b.over()
	}
	n := s.add(joined(told(look{weight: strong}, formula, verdict), len(s.widths))...)
	s.marks = append(s.marks, mark{s.at(1, n, 0).upTo(s.at(len(s.widths), n, 0), s), fmt.Sprintf(`LEFT($A$%d,9)="IT DOES N"`, n), out})
	rows := s.hiddenAt(0, first, 0).upTo(s.hiddenAt(0, n, 0), s)
	s.hide(1, live(look{}, "0", fmt.Sprintf("SUM(%s)", rows), 0))
}

// over says by how much the packing is too much.
func (b *book) over() string {
	var out []string
	if v := b.fits.volume.v; v < -slack {
		out = append(out, fixed(-v, 0)+" "+b.u.boot.name+" too big")
	}
	if m := b.fits.mass.v; m < -slack {
		out = append(out, fixed(-m, 0)+" "+b.u.mass.name+" too heavy")
	}
	return strings.Join(out, " and ")
}
