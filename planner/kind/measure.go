package kind

import (
	"strings"

	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// Measure is the word for what a point's level counts, as JSON has it.
type Measure string

// MeasureInfo is all that tripwear knows of a measure.
type MeasureInfo struct {
	Measure
	Length bool           // of what wears away: told in units; the rest is told as a share of life
	Level  quantity.Shown // how a level is shown
	Taken  quantity.Shown // how what a leg or a lap takes is shown
	Digits int            // significant, of what a lap takes
	End    string         // what a set does at its limit: "fail", "boil"

	Label   string // of a point, with PLACE, ZONE and UNIT for its own
	Note    string // what its table shows; "" where another measure of the kind has the table
	Heats   bool   // it wears by how hot a session gets
	Minutes bool   // it wears by the minutes of sessions, not by laps
	Form    Ask    // what the form for readings asks for; empty where a finding tells it, or nothing
}

// Ask is a question of the form for readings.
type Ask struct {
	Row  logbook.What // that answers it
	What string       // as the form names it
	By   string       // eye, hand, foot or dipstick; "" where it is a number
}

// Info is what is known of a measure. Plans hold no measure that the table
// lacks: the completeness test walks them.
func (m Measure) Info() MeasureInfo {
	for _, k := range All {
		for _, info := range k.Measures {
			if info.Measure == m {
				return info
			}
		}
	}
	return MeasureInfo{Measure: m}
}

// Named is a point's label, with the unit of what is taken from it.
func (m MeasureInfo) Named(place, zone string, u quantity.System) string {
	return strings.NewReplacer("PLACE", place, "ZONE", zone, "UNIT", m.Taken[u].Name).Replace(m.Label)
}

// Zoned is whether a point is named with its zone.
func (m MeasureInfo) Zoned() bool { return strings.Contains(m.Label, "ZONE") }

// Placed is whether a point is named with its place.
func (m MeasureInfo) Placed() bool { return strings.Contains(m.Label, "PLACE") }

// Show is a level in the owner's units.
func (m Measure) Show(u quantity.System, level float64) string {
	if info := m.Info(); info.Length {
		return info.Level[u].Text(level)
	}
	return quantity.Life(level) + " of its life"
}

// Wants is a level that must be there at least, for a sentence: rounded up.
func (m Measure) Wants(u quantity.System, level float64) string {
	if info := m.Info(); info.Length {
		return info.Level[u].Up(level)
	}
	return quantity.Percent[u].Up(level) + " of its life"
}
