package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// measured is how a measure of some parts is told.
type measured struct {
	measure kind.Measure
	title   string // of its table; none where another measure of the same parts has one
	note    string
	chance  bool   // its table tells the chance of being still good, and no levels
	margin  bool   // that use alone brings near: none to read now, and past the limit it is negative
	label   string // of a point, with PLACE, ZONE and UNIT for its own
	level   quantity.Shown
	taken   quantity.Shown // by a trip or a lap
	figures int            // that are significant of what a lap takes
}

var measures = []measured{
	{
		measure: kind.Tread, title: "Tires", note: "tread left at the zone nearest its limit",
		label: "PLACE ZONE tread, UNIT", level: quantity.Tread, taken: quantity.Tread, figures: 2,
	},
	{
		measure: kind.PadLining, title: "Pads", note: "friction material left at the thinnest end",
		label: "PLACE pad, UNIT", level: quantity.Pad, taken: quantity.Pad, figures: 2,
	},
	{
		measure: kind.Crack, title: "Rotors", note: "life left before cracks, share of a new rotor",
		label: "PLACE rotor cracks, UNIT", level: quantity.Percent, taken: quantity.Percent, figures: 2,
	},
	{
		measure: kind.Thickness,
		label:   "PLACE rotor, UNIT", level: quantity.Thickness, taken: quantity.Thickness, figures: 2,
	},
	{
		measure: kind.HubLife, title: "Hub bearings", note: "chance of being still good", chance: true,
		label: "PLACE hub, UNIT of L10", taken: quantity.Percent, figures: 2,
	},
	{
		measure: kind.OilLife, title: "Engine oil", note: "equivalent distance left to its ceiling",
		label: "oil, equivalent UNIT", level: quantity.Hundreds, taken: quantity.Distance, figures: 3,
	},
	{
		measure: kind.BoilMargin, title: "Brake fluid", note: "lowest margin to boiling so far", margin: true,
		label: "brake fluid's rise, UNIT", level: quantity.Warmth, taken: quantity.Warmth, figures: 2,
	},
}

// how is how a measure is told: one that the table lacks as a share of life.
func how(m kind.Measure) measured {
	if i := slices.IndexFunc(measures, func(k measured) bool { return k.measure == m }); i >= 0 {
		return measures[i]
	}
	return measured{
		measure: m, title: string(m), note: "share left of a new part's", label: "PLACE " + string(m) + ", UNIT",
		level: quantity.Percent, taken: quantity.Percent, figures: 2,
	}
}

// named is a point's label.
func (m measured) named(place, zone string, u quantity.System) string {
	return strings.NewReplacer("PLACE", place, "ZONE", zone, "UNIT", m.taken[u].Name).Replace(m.label)
}

// zoned is whether a point is told with its zone, placed whether with its place.
func (m measured) zoned() bool { return strings.Contains(m.label, "ZONE") }

func (m measured) placed() bool { return strings.Contains(m.label, "PLACE") }

// number is a level; one past its limit is 0: a part does not go on wearing
// there.
func (m measured) number(u quantity.System, level float64) string {
	if !m.margin {
		level = math.Max(0, level)
	}
	return m.level[u].Number(level)
}

// read are the measures that a gauge reads, by the first word of a set's id.
var read = map[string]kind.Measure{"tires": kind.Tread, "pads": kind.PadLining}

// readAs is how the readings of a set are shown.
func readAs(set string) quantity.Shown {
	kind, _, _ := strings.Cut(set, "-")
	return how(read[kind]).level
}

// teaches is what a kind of parts does, and what of it is read.
type teaches struct{ verb, read, looked string }

// learnings of the kinds that are not worn and measured.
var learnings = map[profiles.Kind]teaches{profiles.Rotors: {"crack", "rotor", " looked at"}}

func learningOf(k profiles.Kind) teaches {
	if l, ok := learnings[k]; ok {
		return l
	}
	return teaches{"wear", "reading", ""}
}

// worstZones keeps, of each wheel, the zone with the least left at the end.
func worstZones(points []plan.Point) []plan.Point {
	var out []plan.Point
	for _, p := range points {
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

func end(p plan.Point) plan.Band { return p.After[len(p.After)-1] }

// groups prints a table for each measure that has one.
func (t text) groups() {
	told := slices.Clone(measures)
	for _, s := range t.Sets {
		for _, p := range s.Points {
			if !slices.ContainsFunc(told, func(m measured) bool { return m.measure == p.Measure }) {
				told = append(told, how(p.Measure))
			}
		}
	}
	for _, m := range told {
		if m.title != "" {
			t.group(m)
		}
	}
}

// group prints one table.
func (t text) group(m measured) {
	legs := t.columns(t.Legs)
	var rows []row
	for _, s := range t.Sets {
		points := s.Points
		if m.zoned() {
			points = worstZones(points)
		}
		for _, p := range points {
			if p.Measure == m.measure {
				rows = append(rows, t.row(m, p, legs))
			}
		}
	}
	if len(rows) == 0 {
		return
	}
	t.head(m.title)
	shown := ", " + m.level[t.units].Words + ": median and, below it, 5-95 %"
	if m.chance { // which has no band of its own
		shown = ""
	}
	t.fold("  ", m.note+shown+", if nothing is renewed; limit: chance that it is crossed by the end.")
	t.table(legs, rows)
}

func (t text) row(m measured, p plan.Point, legs []int) row {
	r := row{label: p.Place, chance: short(end(p).PLimit)}
	if m.zoned() {
		r.label += " " + p.Zone
	}
	if !m.chance && !m.margin {
		r.now = m.number(t.units, p.Start)
	}
	for _, j := range legs {
		b := p.After[j]
		cell := [2]string{short(1 - b.PLimit), ""}
		if !m.chance {
			cell = [2]string{m.number(t.units, b.P50), m.number(t.units, b.P5) + "-" + m.number(t.units, b.P95)}
		}
		r.cells = append(r.cells, cell)
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
