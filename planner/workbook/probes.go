package workbook

import (
	"fmt"
	"math"

	"example.com/tripwear/planner/plan"
)

// probes adds what the tread temperatures ask for, a line a wheel.
func (v view) probes(s *sheet) {
	if len(v.Probed) == 0 {
		return
	}
	s.section("Tread temperatures: inside, middle, outside, " + v.u.heat.name)
	for _, r := range v.Probed {
		line := fmt.Sprintf("%s  %.0f / %.0f / %.0f, %s; measured tread %s. %s", r.Place, v.u.heat.of(r.Heat[0]), v.u.heat.of(r.Heat[1]), v.u.heat.of(r.Heat[2]),
			r.Concern, r.Wear, sentenceCase(r.Why)+".")
		if r.Camber != 0 {
			line += v.camber(r)
		}
		s.span(look{}, line)
	}
	s.span(look{weight: quiet}, "Pressure before camber, one change at a time, then read again. The model knows no pressure.")
}

// camber says what a suggested change of camber does to the tread.
func (v view) camber(r plan.Probing) string {
	u := v.u.tread
	if !finite(r.Trips) {
		return fmt.Sprintf(" Try %+.1f deg of camber.", r.Camber*180/math.Pi)
	}
	return fmt.Sprintf(" Try %+.1f deg of camber: by the model this trip then takes %.1f, %.1f, %.1f instead of %.1f, %.1f, %.1f (%s), and a new tire lasts %.1f such trips instead of %.1f.",
		r.Camber*180/math.Pi, u.of(r.Would[0]), u.of(r.Would[1]), u.of(r.Would[2]), u.of(r.Loss[0]), u.of(r.Loss[1]), u.of(r.Loss[2]), u.name, r.TripsNew, r.Trips)
}
