package workbook

import (
	"fmt"
)

// decisions gives the reason of every decision, and the checks they count on.
func decisions(v view) *sheet {
	s := &sheet{name: "Decisions", wide: true, side: 1, widths: []float64{21, 23, 16, 11, 11, 11, 62}}
	s.title("Decisions", fmt.Sprintf("One row a set, from %d draws with seed %d. Chances in %%. Unnoticed means driven across the limit although the checks below were made.", v.Draws, v.Seed))
	warnAll(s)
	s.heads(left("Set"), left("Action"), left("Where first"), right("Limit crossed if nothing is done"), right("Stopped short as decided"), center("Unnoticed as decided"), left("Reason"))
	for _, t := range v.Sets {
		d := t.Decision
		unnoticed := blank(look{box: true})
		if t.Critical {
			unnoticed = number(look{box: true, across: "center"}, `[<0.0005]"<0.1 %";0.0 %`, d.PUnsafe)
		}
		s.add(text(look{weight: strong, box: true}, t.Name), asPlanned(text(look{weight: doingOf(d.Action).look, box: true}, v.action(d))), asPlanned(text(look{box: true}, d.Where)),
			asPlanned(v.u.chance.in(look{box: true}, d.PAsIs)), asPlanned(v.u.chance.in(look{box: true}, d.POut)), asPlanned(unnoticed), asPlanned(text(look{box: true}, sentence(v.u.system.Words(d.Reason)))))
	}
	v.checks(s)
	return s
}

func (v view) checks(s *sheet) {
	if len(v.Checks) == 0 {
		return
	}
	s.section("Checks these decisions count on")
	var order []string
	whats := map[string][]string{}
	for _, c := range v.Checks {
		if whats[c.When] == nil {
			order = append(order, c.When)
		}
		whats[c.When] = append(whats[c.When], v.Say(c, v.u.system))
	}
	for _, when := range order {
		shown := when
		for _, what := range whats[when] {
			s.add(append([]cell{text(look{weight: strong}, shown)}, joined(text(look{}, sentence(v.u.system.Words(what))), len(s.widths)-1)...)...)
			shown = ""
		}
	}
}
