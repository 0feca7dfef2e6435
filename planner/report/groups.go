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

// shownAs is how the readings of a set are shown, by its id.
func shownAs(id string) quantity.Shown {
	for _, s := range profiles.Sets() {
		if of, _, _ := strings.Cut(id, ":"); s.ID == of {
			return kind.Of(s.Kind).Measures[0].Level
		}
	}
	return quantity.Percent
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

// nearest is the point with the least left at the end.
func nearest(points []plan.Point) plan.Point {
	return slices.MinFunc(points, func(a, b plan.Point) int { return cmp.Compare(end(a).P50, end(b).P50) })
}

func end(p plan.Point) plan.Band { return p.After[len(p.After)-1] }

// group prints one table: of a measure, or of all kinds that share it, a row a
// set.
func (t text) group(k *kind.Kind, m kind.MeasureInfo) {
	legs := t.legsShown(t.Legs)
	var rows []levels
	for _, s := range t.Sets {
		of := kind.Of(s.Kind)
		if k.Table != "" && of.Table == k.Table {
			p := nearest(s.Points)
			l := t.levels(of, m, p, legs)
			l.label, l.below = s.Name, p.Zone
			if s.RoadSpread == 0 { // a count has no band
				l.band = make([]string, len(legs))
			}
			rows = append(rows, l)
			continue
		}
		points := s.Points
		if m.Zoned() {
			points = worstZones(points)
		}
		for _, p := range points {
			if p.Measure == m.Measure {
				l := t.levels(k, m, p, legs)
				if s.Swaps() {
					l.below = s.Part
				}
				rows = append(rows, l)
			}
		}
	}
	if len(rows) == 0 {
		return
	}
	t.Head(cmp.Or(k.Table, k.ID.Info().Plural))
	shown := ", " + m.Level[t.Units].Words + ": median and, below it, 5-95 %"
	if k.Lifetime { // which has no band of its own
		shown = ""
	}
	t.Note("%s, if nothing is replaced; limit: chance to reach it by the end.", m.Note+shown)
	t.table(legs, rows)
}

func (t text) levels(k *kind.Kind, m kind.MeasureInfo, p plan.Point, legs []int) levels {
	l := levels{label: p.Place, chance: short(end(p).PLimit)}
	if m.Zoned() {
		l.label += " " + p.Zone
	}
	number := func(level float64) string {
		if !k.Apart { // past its limit a part does not go on wearing
			level = math.Max(0, level)
		}
		return m.Level[t.Units].Number(level)
	}
	if !k.Lifetime && !k.Apart { // which use alone brings near: there is none to read now
		l.now = number(p.Start)
	}
	for _, j := range legs {
		b := p.After[j]
		median, band := short(1-b.PLimit), ""
		if !k.Lifetime {
			median, band = number(b.P50), number(b.P5)+"-"+number(b.P95)
		}
		l.median, l.band = append(l.median, median), append(l.band, band)
	}
	return l
}

// short is a chance in few characters.
func short(p float64) string {
	return strings.NewReplacer("under ", "<", "over ", ">").Replace(quantity.Chance(p))
}
