package report

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// measured is how a measure of some parts is printed.
type measured struct {
	measure kind.Measure
	note    string // below the heading; "" where another measure of the same parts has the table
	chance  bool   // its table has the chance of being still good, and no levels
	margin  bool   // that use alone brings near: none to read now, and past the limit it is negative
	label   string // of a point, with PLACE, ZONE and UNIT for its own
	level   quantity.Shown
	taken   quantity.Shown // by a trip or a lap
	figures int            // that are significant of what a lap takes; 0 stands for 2
}

var measures = []measured{
	{
		measure: kind.Tread, note: "tread left at the zone nearest its limit",
		label: "PLACE ZONE tread, UNIT", level: quantity.Tread, taken: quantity.Tread,
	},
	{
		measure: kind.PadLining, note: "friction material left at the thinnest end",
		label: "PLACE pad, UNIT", level: quantity.Pad, taken: quantity.Pad,
	},
	{
		measure: kind.Crack, note: "life left before cracks, share of a new rotor",
		label: "PLACE rotor cracks, UNIT", level: quantity.Percent, taken: quantity.Percent,
	},
	{
		measure: kind.Thickness,
		label:   "PLACE rotor, UNIT", level: quantity.Thickness, taken: quantity.Thickness,
	},
	{
		measure: kind.HubLife, note: "chance of being still good", chance: true,
		label: "PLACE hub, UNIT of L10", taken: quantity.Percent,
	},
	{
		measure: kind.OilLife, note: "equivalent distance left to its ceiling",
		label: "oil, equivalent UNIT", level: quantity.Hundreds, taken: quantity.Distance, figures: 3,
	},
	{
		measure: kind.BoilMargin, note: "lowest margin to boiling so far", margin: true,
		label: "brake fluid's rise, UNIT", level: quantity.Warmth, taken: quantity.Warmth,
	},
}

// how is how a measure is printed: one that the table lacks as a share of life.
func how(m kind.Measure) measured {
	if i := slices.IndexFunc(measures, func(k measured) bool { return k.measure == m }); i >= 0 {
		return measures[i]
	}
	return measured{
		measure: m, note: "share left of a new part's", label: "PLACE " + string(m) + ", UNIT",
		level: quantity.Percent, taken: quantity.Percent,
	}
}

// named is a point's label.
func (m measured) named(place, zone string, u quantity.System) string {
	return strings.NewReplacer("PLACE", place, "ZONE", zone, "UNIT", m.taken[u].Name).Replace(m.label)
}

// zoned is whether a point is named with its zone, placed whether with its place.
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

// read are the measures that a gauge reads of the kinds that are learned from.
var read = map[profiles.Kind]kind.Measure{profiles.Tire: kind.Tread, profiles.Pads: kind.PadLining}

// readAs is how the readings of a set are shown, by its id.
func readAs(set string) quantity.Shown {
	for _, s := range profiles.Sets() {
		if s.ID == set {
			return how(read[s.Kind]).level
		}
	}
	return how("").level
}

// wears is what a kind of parts does, and what of it is read.
func wears(k profiles.Kind) (verb, read, looked string) {
	if k == profiles.Rotors {
		return "crack", "rotor", " looked at"
	}
	return "wear", "reading", ""
}

// worstZones keeps, of each wheel, the zone with the least left at the end.
func worstZones(points []plan.Point) []plan.Point {
	var out []plan.Point
	for _, p := range points {
		n := len(out)
		switch {
		case n == 0 || out[n-1].Place != p.Place:
			out = append(out, p)
		case end(p).P50 < end(out[n-1]).P50:
			out[n-1] = p
		}
	}
	return out
}

func end(p plan.Point) plan.Band { return p.After[len(p.After)-1] }

// groups prints a table for each measure that has one, those that the table
// of measures lacks at the end.
func (t text) groups() {
	all := slices.Clone(measures)
	for _, s := range t.Sets {
		for _, p := range s.Points {
			if !slices.ContainsFunc(all, func(m measured) bool { return m.measure == p.Measure }) {
				all = append(all, how(p.Measure))
			}
		}
	}
	for _, m := range all {
		if m.note != "" {
			t.group(m)
		}
	}
}

// group prints one table.
func (t text) group(m measured) {
	legs := t.legsShown(t.Legs)
	title := ""
	var rows []levels
	for _, s := range t.Sets {
		points := s.Points
		if m.zoned() {
			points = worstZones(points)
		}
		for _, p := range points {
			if p.Measure == m.measure {
				title = cmp.Or(s.Kind.Info().Plural, string(m.measure))
				rows = append(rows, t.levels(m, p, legs))
			}
		}
	}
	if len(rows) == 0 {
		return
	}
	t.head(title)
	shown := ", " + m.level[t.units].Words + ": median and, below it, 5-95 %"
	if m.chance { // which has no band of its own
		shown = ""
	}
	t.note("%s, if nothing is replaced; limit: chance to reach it by the end.", m.note+shown)
	t.table(legs, rows)
}

func (t text) levels(m measured, p plan.Point, legs []int) levels {
	l := levels{label: p.Place, chance: short(end(p).PLimit)}
	if m.zoned() {
		l.label += " " + p.Zone
	}
	if !m.chance && !m.margin {
		l.now = m.number(t.units, p.Start)
	}
	for _, j := range legs {
		b := p.After[j]
		median, band := short(1-b.PLimit), ""
		if !m.chance {
			median, band = m.number(t.units, b.P50), m.number(t.units, b.P5)+"-"+m.number(t.units, b.P95)
		}
		l.median, l.band = append(l.median, median), append(l.band, band)
	}
	return l
}

// short is a chance in few characters.
func short(p float64) string {
	return strings.NewReplacer("under ", "<", "over ", ">").Replace(quantity.Chance(p))
}
