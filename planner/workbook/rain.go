package workbook

// rain adds what the tread means on the legs with rain to the sheet of legs.
func (v view) rain(s *sheet) {
	any := false
	for j, l := range v.Legs {
		for _, w := range l.Wet {
			if !any {
				any = true
				s.section("Rain: what the tread left means in it, as planned")
				heads := append([]cell{left("No."), left("Tires"), left("Leg"), right(v.u.tread.head("Tread left"))}, joined(left("at"), 2)...)
				s.add(append(heads, right(v.u.speed.head("Planes")), right(v.u.speed.head("Flood")), right("Wet stop, times"))...)
			}
			tread := v.u.tread.in(look{}, w.Tread)
			if w.Shallow {
				tread.look = look{weight: strong, format: v.u.tread.format + `" !"`}
			}
			cells := append([]cell{
				number(look{across: "left"}, "0", float64(j+1)), text(look{}, w.Name), text(look{weight: strong}, l.Name), asPlanned(tread),
			}, joined(asPlanned(text(look{}, w.Place+" "+w.Zone)), 2)...)
			s.add(append(cells, asPlanned(v.u.speed.in(look{}, w.Planes)), asPlanned(v.u.speed.in(look{}, w.Flooded)), asPlanned(number(look{}, asHundred, w.Stop)))...)
		}
	}
	if any {
		s.span(look{weight: quiet}, "Tread at the shallowest zone at the end of the leg, with what is replaced before it; ! is below what is wanted in rain. Planes: in 0.10 in (2.5 mm) of water, Gallaway; flooded: deeper than the tread, NASA TN D-2056. Wet stop: from 60 mph against full tread. Guides, not promises.")
	}
}
