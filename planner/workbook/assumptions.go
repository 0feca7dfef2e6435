package workbook

import (
	"fmt"
	"slices"
	"strings"

	"example.com/tripwear/planner/plan"
)

// assumptions lists what the plan leans on that nobody measured on this car: on
// paper what a reading would replace, part by part; below it each value.
func assumptions(v view) *sheet {
	s := &sheet{name: "Assumptions", wide: true, side: 1, widths: []float64{30, 23, 20, 33, 32}}
	s.title("Assumptions", "Values nobody measured on this car, where each comes from, and what replaces it.")
	if len(v.Assumptions) == 0 {
		s.span(look{}, "None: every value is the owner's own.")
		return s
	}
	s.digest(v)
	s.printed = len(s.rows)
	s.section("Each value")
	s.add(left("What"), left("Value"), left("Kind of source"), left("Source"), left("How to replace it by a measurement"))
	box := look{box: true}
	for _, a := range v.Assumptions {
		s.add(text(look{weight: strong, box: true}, a.What), text(box, a.Value), text(box, a.Tag), text(box, a.Source), text(box, sentence(v.u.system.Words(a.Replace))))
	}
	return s
}

// digest has a row for each part, and for each group of the model's values.
func (s *sheet) digest(v view) {
	groups := map[string][]plan.Assumption{}
	var order []string
	for _, a := range v.Assumptions {
		of, _, part := strings.Cut(a.What, ": ")
		if !part {
			of, _, _ = strings.Cut(a.What, ".")
		}
		if groups[of] == nil {
			order = append(order, of)
		}
		groups[of] = append(groups[of], a)
	}
	slices.SortStableFunc(order, func(a, b string) int { return measurable(groups[b]) - measurable(groups[a]) })
	s.add(append(append([]cell{left("Of"), left("Values")}, joined(left("Which"), 2)...), left("How to replace them"))...)
	box := look{box: true}
	for _, of := range order {
		all := groups[of]
		var which, how []string
		for _, a := range all {
			name := strings.TrimPrefix(strings.TrimPrefix(strings.TrimPrefix(a.What, of), ":"), ".")
			if n := strings.TrimSpace(name); n != "" {
				which = append(which, n)
			}
			if !slices.Contains(how, a.Replace) {
				how = append(how, a.Replace)
			}
		}
		cells := []cell{text(look{weight: strong, box: true}, of), text(box, fmt.Sprintf("%d, %s", len(all), sources(all)))}
		cells = append(cells, joined(text(box, clip(strings.Join(which, ", "), 95)), 2)...)
		s.add(append(cells, text(box, clip(sentence(v.u.system.Words(strings.Join(how, "; "))), 62)))...)
	}
	s.span(look{weight: quiet}, "Each value with its source stands below on the sheet, left out of the print; tripwear plan --all lists them too.")
}

// measurable is 1 for what a reading of the car replaces.
func measurable(all []plan.Assumption) int {
	return choose(slices.ContainsFunc(all, func(a plan.Assumption) bool { return !strings.HasPrefix(a.Replace, "set it in") }), 1, 0)
}

// sources says where most of the values come from.
func sources(all []plan.Assumption) string {
	count := map[string]int{}
	most := ""
	for _, a := range all {
		if count[a.Tag]++; count[a.Tag] > count[most] {
			most = a.Tag
		}
	}
	return choose(count[most] == len(all), "", "most ") + most
}
