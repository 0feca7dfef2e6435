package report

import (
	"fmt"
	"math"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// group is one table: a measure of one kind of part.
type group struct {
	title   string
	note    string
	measure planner.Measure
	number  func(quantity.System, float64) string
	each    func(planner.Set) []planner.Point
}

var groups = []group{
	{"Tires", "tread left at the zone nearest its limit", planner.Tread, treadNumber, worstZones},
	{"Pads", "friction material left at the thinnest end, mm", planner.PadLining, millimetres, allPoints},
	{"Rotors", "life left before cracks, share of a new rotor, %", planner.Crack, percent, allPoints},
	{"Hub bearings", "chance of being still good", planner.HubLife, nil, allPoints},
	{"Engine oil", "equivalent distance left to its ceiling", planner.OilLife, distance, allPoints},
	{"Brake fluid", "lowest margin to boiling so far", planner.BoilMargin, kelvin, allPoints},
}

func allPoints(s planner.Set) []planner.Point { return s.Points }

// worstZones keeps, of each wheel, the zone with the least left at the end.
func worstZones(s planner.Set) []planner.Point {
	var out []planner.Point
	for _, p := range s.Points {
		if n := len(out); n > 0 && out[n-1].Place == p.Place {
			if end(p).P50 < end(out[n-1]).P50 {
				out[n-1] = p
			}
			continue
		}
		out = append(out, p)
	}
	return out
}

func end(p planner.Point) planner.Band { return p.After[len(p.After)-1] }

// group prints one table.
func (t text) group(g group) {
	legs := columns(t.Legs)
	var rows []row
	for _, s := range t.Sets {
		for _, p := range g.each(s) {
			if p.Measure == g.measure {
				rows = append(rows, t.row(g, s, p, legs))
			}
		}
	}
	if len(rows) == 0 {
		return
	}
	t.head(g.title)
	shown := ": median and, below it, 5-95 %"
	if g.number == nil { // a chance has no band of its own
		shown = ""
	}
	t.fold("  ", g.note+t.unit(g.measure)+shown+", if nothing is renewed; limit: chance that it is crossed by the end.")
	t.table(legs, rows)
}

func (t text) row(g group, s planner.Set, p planner.Point, legs []int) row {
	r := row{label: p.Place, chance: short(end(p).PLimit)}
	if p.Zone != "" && p.Measure == planner.Tread {
		r.label += " " + p.Zone
	}
	for _, j := range legs {
		b := p.After[j]
		if g.number == nil {
			r.cells = append(r.cells, [2]string{short(1 - b.PLimit), ""})
			continue
		}
		r.cells = append(r.cells, [2]string{g.number(t.units, b.P50), g.number(t.units, b.P5) + "-" + g.number(t.units, b.P95)})
	}
	if g.number != nil {
		r.now = g.number(t.units, p.Start)
	}
	if s.Kind == profiles.Fluid {
		r.now = ""
	}
	return r
}

// short is a chance in few characters.
func short(p float64) string {
	switch {
	case p < 0.005:
		return "<1 %"
	case p >= 0.995:
		return ">99 %"
	default:
		return fmt.Sprintf("%.0f %%", math.Round(100*p))
	}
}

// unit names a measure's unit where it depends on the system.
func (t text) unit(m planner.Measure) string {
	us := t.units == quantity.US
	switch {
	case m == planner.Tread && us:
		return ", 32nds of an inch"
	case m == planner.Tread:
		return ", mm"
	case m == planner.OilLife && us:
		return ", hundred miles"
	case m == planner.OilLife:
		return ", hundred km"
	case m == planner.BoilMargin && us:
		return ", F"
	case m == planner.BoilMargin:
		return ", K"
	}
	return ""
}

// Levels below the limit print as 0: a part does not go on wearing there.
func floor(x float64) float64 { return math.Max(0, x) }

func treadNumber(u quantity.System, m float64) string {
	if u == quantity.US {
		return fmt.Sprintf("%.1f", floor(m)/(0.0254/32))
	}
	return fmt.Sprintf("%.1f", floor(m)*1000)
}

func millimetres(_ quantity.System, m float64) string { return fmt.Sprintf("%.1f", floor(m)*1000) }

func percent(_ quantity.System, share float64) string { return fmt.Sprintf("%.0f", 100*floor(share)) }

func distance(u quantity.System, m float64) string {
	if u == quantity.US {
		return fmt.Sprintf("%.0f", floor(m)/160934.4)
	}
	return fmt.Sprintf("%.0f", floor(m)/100e3)
}

func kelvin(u quantity.System, k float64) string {
	if u == quantity.US {
		return fmt.Sprintf("%.0f", k*1.8)
	}
	return fmt.Sprintf("%.0f", k)
}
