package workbook

// assumptions lists what the plan leans on that nobody measured on this car.
func assumptions(v view) *sheet {
	s := &sheet{name: "Assumptions", wide: true, side: 1, widths: []float64{36, 18, 21, 48, 40}}
	s.title("Assumptions", "Values nobody measured on this car, where each comes from, and what replaces it.")
	s.heads(left("What"), left("Value"), left("Kind of source"), left("Source"), left("How to replace it by a measurement"))
	box := look{box: true}
	for _, a := range v.Assumptions {
		s.add(text(look{weight: strong, box: true}, a.What), text(box, a.Value), text(box, a.Tag), text(box, a.Source), text(box, sentence(v.u.system.Words(a.Replace))))
	}
	if len(v.Assumptions) == 0 {
		s.span(look{}, "None: every value is the owner's own.")
	}
	return s
}
