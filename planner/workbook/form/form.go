// Package form is what a workbook's Readings sheet asks for, row by row, and
// what was written there, read back.
package form

import (
	"slices"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// Sheet is the name of the form's sheet.
const Sheet = "Readings"

// Its columns.
const (
	Expected = 3 + iota
	Low
	High
	Unit
	Measured
	Status
	Note
)

// Widths of its columns, in digits.
var Widths = []float64{6.5, 22.5, 9.5, 7, 7, 7.5, 12, 16, 11}

// Hidden keys of a row: they say what a reading is of, whatever the row shows.
const (
	keyTrip = iota
	keyLeg  // 0 before leaving, else the leg's number
	keySet
	keyPoint
	keyUnit
	KeyNumber // of a cell that takes thirty-seconds
)

// FirstKey is the column of the first of them.
var FirstKey = len(Widths) + 2

// What a cell of the form takes at most: days of the format's calendar, 1 January
// 2000 to 31 December 2199, and a number that no measure passes.
const (
	FirstDay = 36526
	LastDay  = 109574
	NoMore   = 9_999_999
)

// Walk is the order of the wheels as one walks round the car.
var Walk = []string{"LF", "RF", "RR", "LR"}

// known are the measures that the form has words of its own for.
var known = []kind.Measure{kind.Tread, kind.PadLining, kind.Crack, kind.Thickness, kind.HubLife, kind.OilLife, kind.BoilMargin}

// Point is what is asked of a point with a measure.
type Point struct {
	kind.MeasureInfo
	Plain bool // nothing is known of it: its row's word is taken
}

// PointOf is the same of a measure.
func PointOf(m kind.Measure) Point { return Point{m.Info(), !slices.Contains(known, m)} }

// Ask is what a row of the form asks for, and what the logbook calls it.
type Ask struct {
	Key               string          // in the row's hidden cells; of a point its measure
	Reading           logbook.What    // as the logbook has it
	Place             string          // the same; "" for the point's own
	Wheel, What, Unit string          // as shown
	Set               string          // of what is asked of a whole set
	Most              float64         // of a number
	Full              logbook.Finding // expected: the one that needs no topping up
}

// Words are the findings that the row offers, from good to bad; none where it
// asks for a number.
func (a Ask) Words() (out []string) {
	for _, w := range logbook.Findings(a.Reading) {
		out = append(out, string(w))
	}
	return out
}

// Asks are what the form asks of a set as a whole.
var Asks = map[profiles.Kind][]Ask{
	profiles.Oil: {
		{Key: "level", Reading: logbook.OilLevel, Place: "engine", Wheel: "engine", What: "oil level, warm", Unit: "dipstick", Set: "oil", Full: logbook.Full},
		{Key: "added", Reading: logbook.OilAdded, Place: "engine", What: "oil added since last page", Set: "oil", Most: 50},
	},
	profiles.Fluid: {
		{Key: "water", Reading: logbook.Water, Place: "system", Wheel: "brakes", What: "water in the fluid", Unit: "%", Set: "fluid", Most: 10},
		{Key: "colour", Reading: logbook.Color, Place: "system", What: "color of the fluid", Unit: "by eye", Set: "fluid"},
		{Key: "pedal", Reading: logbook.Pedal, Place: "system", What: "pedal", Unit: "by foot", Set: "fluid"},
	},
}

// of is the kind whose sets are told by the measure; nil where another measure
// of it tells them.
func (m Point) of() *kind.Kind {
	i := slices.IndexFunc(kind.All, func(k *kind.Kind) bool { return k.Measures[0].Measure == m.Measure })
	if i < 0 || Asks[kind.All[i].ID] != nil {
		return nil
	}
	return kind.All[i]
}

// Asked is what the form asks of a point: a reading, or what is found where no
// gauge reads it.
func (m Point) Asked() Ask {
	if k := m.of(); m.Form.Row == "" && k != nil && len(k.Findings) > 0 {
		return found(k.Findings[0])
	}
	return Ask{Reading: m.Form.Row, What: m.Form.What}
}

// Found is what an eye finds beside a reading.
func (m Point) Found() []Ask {
	var out []Ask
	if k := m.of(); k != nil && m.Form.Row != "" {
		for _, f := range k.Findings {
			out = append(out, found(f))
		}
	}
	return out
}

// found is the question that findings answer.
func found(f kind.Findings) Ask {
	a := Ask{Reading: f.Row, What: f.What, Unit: "by " + f.By}
	owner, _ := profiles.KindRead(f.Row)
	for _, r := range owner.Info().Readings {
		if r.What == f.Row {
			a.Key = r.Key
		}
	}
	return a
}

// plainKey ends the key of a point whose measure the form does not know, so
// that reading takes its word for what it asked.
const plainKey = "/plain"

// Key of a point's row: its place, zone and measure.
func (m Point) Key(p plan.Point) string {
	key := p.Place + "/" + p.Zone + "/" + string(p.Measure)
	if m.Plain {
		key += plainKey
	}
	return key
}

// askOf finds what a row of the form asked for by its hidden key.
func askOf(key string) (a Ask, zone string, ok bool) {
	for _, of := range Asks {
		if i := slices.IndexFunc(of, func(a Ask) bool { return a.Key == key }); i >= 0 {
			return of[i], "", true
		}
	}
	bare, plain := strings.CutSuffix(key, plainKey)
	at := strings.Split(bare, "/")
	if len(at) != 3 || at[0] == "" || at[2] == "" || !plain && !slices.Contains(Walk, at[0]) {
		return Ask{}, "", false
	}
	m := PointOf(kind.Measure(at[2]))
	if a = m.Asked(); m.Zoned() || m.Plain {
		zone = at[1]
	}
	for _, k := range kind.All {
		for _, one := range PointOf(k.Measures[0].Measure).Found() {
			if one.Key == at[2] {
				m.Plain, a, zone = false, one, ""
			}
		}
	}
	a.Place = at[0]
	return a, zone, m.Plain == plain && a.Reading != ""
}
