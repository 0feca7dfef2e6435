package workbook

import (
	"fmt"
	"strings"
)

// probes adds what the tread temperatures ask for, a line a wheel.
func (v view) probes(s *sheet) {
	if len(v.Probed) == 0 {
		return
	}
	s.section("Tread temperatures: inside, middle, outside, " + v.u.heat.name)
	for _, r := range v.Probed {
		s.span(look{}, strings.TrimSpace(fmt.Sprintf("%s  %.0f / %.0f / %.0f, %s; measured tread %s. %s %s", r.Place, v.u.heat.of(r.Heat[0]), v.u.heat.of(r.Heat[1]), v.u.heat.of(r.Heat[2]),
			r.Concern, r.Wear, sentenceCase(r.Say(v.u.system)), r.Effect(v.u.system))))
	}
	s.span(look{weight: quiet}, "Pressure before camber, one change at a time, then read again. The model knows no pressure.")
}
