package workbook

import (
	"strings"
)

// seen says what an eye, a hand or a laboratory found of the sets.
func (v view) seen(s *sheet) {
	for _, set := range v.Sets {
		if len(set.Seen) > 0 {
			s.span(look{}, "Found on the "+set.Name+": "+strings.Join(set.Seen, "; ")+".")
		}
	}
}
