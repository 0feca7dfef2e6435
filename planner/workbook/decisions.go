package workbook

import (
	"fmt"
)

const decisionsName = "Decisions"

// decisions gives the reason of every decision.
func decisions(v view) *sheet {
	s := &sheet{name: decisionsName, wide: true, side: 1, widths: []float64{16, 18, 11, 9, 9, 9, 66}}
	s.title("Decisions", fmt.Sprintf("One row a set, from %d draws with seed %d. Chances in %%. Unnoticed means driven across the limit although the checks were made.", v.Draws, v.Seed))
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
	v.seen(s)
	v.probes(s)
	return s
}
