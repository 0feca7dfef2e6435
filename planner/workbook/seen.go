package workbook

import (
	"strings"
)

// seen says what an eye, a hand or a laboratory found of the sets that a sheet
// shows, what forbids to drive first.
func (v view) seen(s *sheet) {
	for _, set := range v.Sets {
		if kindOf(set.Kind).sheet() != s.name {
			continue
		}
		if len(set.Stop) > 0 {
			s.span(look{weight: stop}, "STOP: "+set.Name+", "+strings.Join(set.Stop, "; ")+". What was found comes before any forecast.")
		}
		if len(set.Seen) > 0 {
			s.span(look{}, "Found on the "+set.Name+": "+strings.Join(set.Seen, "; ")+".")
		}
	}
}
