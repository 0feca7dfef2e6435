package workbook

import (
	"fmt"

)

// decisions gives the reason of every decision, and the checks they count on.
func (b *book) decisions() *sheet {
	s := &sheet{name: "Decisions", wide: true, side: 1, widths: []float64{19, 23, 16, 11, 11, 11, 62}}
	s.title("Decisions", fmt.Sprintf("One row a set, from %d draws with seed %d. Chances in %%. Unnoticed means driven across the limit although the checks below were made.", b.p.Draws, b.p.Seed))
	s.heads("Set", "Action", "Where first", "Limit crossed if nothing is done", "Stopped short as decided", "Unnoticed as decided", "Reason")
	s.head = 3
	for _, t := range b.p.Sets {
		d := t.Decision
		unnoticed := blank(look{box: true})
		if t.Critical {
			unnoticed = number(look{box: true}, `[<0.0005]"<0.1 %";0.0 %`, d.PUnsafe)
		}
		s.add(text(look{weight: strong, box: true}, t.Name), text(look{weight: loudness[d.Action]}, b.action(d)), text(look{box: true}, d.Where),
			b.u.chance.in(look{box: true}, d.PAsIs), b.u.chance.in(look{box: true}, d.POut), unnoticed, text(look{box: true}, sentence(d.Reason)))
	}
	b.checks(s)
	return s
}

func (b *book) checks(s *sheet) {
	if len(b.p.Checks) == 0 {
		return
	}
	s.section("Checks these decisions count on")
	when := ""
	for _, c := range b.p.Checks {
		shown := ""
		if c.When != when {
			shown, when = c.When, c.When
		}
		cells := []cell{text(look{weight: strong}, shown), text(look{}, sentence(c.What))}
		n := s.addHigh(max(lineHeight, s.textHeight(look{}, c.What, s.width()-s.widths[0])), cells...)
		s.join(n, 2, len(s.widths))
	}
}

