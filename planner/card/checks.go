package card

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
)

// point is a point in words, such as RF outside or RF pad.
func point(place, zone string, m kind.Measure) string {
	if zone == "" {
		zone = string(m)
	}
	return place + " " + zone
}

// read are the courses that the checks read, one a set.
func (b builder) read() []plan.Course {
	var out []plan.Course
	for _, s := range b.Sets {
		for _, c := range b.Checks {
			if c.Set != s.ID || c.Looks != kind.ByGauge || c.Measure == "" {
				continue
			}
			i := slices.IndexFunc(b.Courses, func(w plan.Course) bool {
				return w.Set == s.ID && w.Place == c.Place && w.Zone == c.Zone && w.Measure == c.Measure
			})
			if i >= 0 {
				out = append(out, b.Courses[i])
				break
			}
		}
	}
	return out
}

func (b builder) checks() {
	ways := b.read()
	name := func(id string) string {
		return b.Sets[slices.IndexFunc(b.Sets, func(s plan.Set) bool { return s.ID == id })].Name
	}
	for _, c := range ways {
		level := c.Measure.Info().Level[b.u]
		b.c.Columns = append(b.c.Columns, Column{upper(name(c.Set)), point(c.Place, c.Zone, ""), level.Number(c.Act), level.Number(c.Stop)})
		if c.New > 0 {
			b.c.Stars = append(b.c.Stars, fmt.Sprintf("%s New %s on before %s: %s expected of the old.", "*", name(c.Set), b.until(c.New), c.Measure.Show(b.u, c.Old)))
		}
	}
	for _, m := range b.moments() {
		row := Row{When: m.when, What: m.what}
		for _, c := range ways {
			level := c.Measure.Info().Level[b.u]
			cell := Cell{Expect: level.Number(c.Level[m.leg])}
			if c.New > 0 && m.leg >= c.New {
				cell.Star = "*"
			}
			for _, s := range b.Sets {
				for _, n := range s.Decision.Days {
					if m.circuit && s.ID == c.Set && n.Leg == m.leg && n.Place == c.Place && n.Zone == c.Zone {
						cell.Least = strings.Fields(strings.SplitN(level.Up(n.Under), "/", 2)[0])[0]
					}
				}
			}
			row.Cells = append(row.Cells, cell)
		}
		b.c.Rows = append(b.c.Rows, row)
	}
}

// until names the leg before which something is, or home.
func (b builder) until(leg int) string {
	if leg < len(b.Legs) {
		return b.Legs[leg].Name
	}
	return "home"
}

// moment is when the card has a check.
type moment struct {
	leg        int
	when, what string
	circuit    bool
}

// moments are leaving, each circuit day, the road after a visit, and home.
func (b builder) moments() []moment {
	start := "leave home"
	if b.Standing != nil {
		start = "now, here"
	}
	var out []moment
	add := func(leg int, at time.Time, what string, circuit bool) {
		when := fmt.Sprintf("Leg %d", leg+1)
		if !at.IsZero() {
			when = day(at)
		}
		out = append(out, moment{leg, when, what, circuit})
	}
	n := len(b.Legs)
	for j, l := range b.Legs {
		circuit := l.Kind == profiles.CircuitLeg
		switch {
		case circuit:
			add(j, l.Start, "before "+l.Circuit, true)
		case j == 0:
			add(j, b.Depart, start, false)
		case b.Legs[j-1].Kind == profiles.CircuitLeg:
			add(j, b.Legs[j-1].End, "before the road", false)
		}
	}
	add(n, b.Legs[n-1].End, "back home", false)
	return out
}
