package workbook

import (
	"slices"
	"strings"

	"example.com/tripwear/profiles"
)

// seen says what an eye, a hand or a laboratory found of the sets of some
// kinds, what forbids to drive first.
func (b *book) seen(s *sheet, kinds ...profiles.Kind) {
	for _, set := range b.p.Sets {
		if !slices.Contains(kinds, set.Kind) {
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
