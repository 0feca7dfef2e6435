package workbook

import (
	"slices"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// remaining is how the workbook shows what a kind's sets have left.
type remaining int

const (
	shareLeft  remaining = iota // live, with a band: a share of a new part's life
	chanceLeft                  // the chance of lasting, as planned; what it takes is live
	marginLeft                  // degrees to boiling, as planned; it does not wear
)

// part is a kind of part as the workbook shows it.
type part struct {
	*kind.Kind
	left remaining
}

// kindOf is how the workbook shows a kind.
func kindOf(k profiles.Kind) part {
	p := part{kind.Of(k), shareLeft}
	switch {
	case p.Lifetime:
		p.left = chanceLeft
	case p.Apart:
		p.left = marginLeft
	}
	return p
}

// ask is what a row of the form asks for, and what the logbook calls it.
type ask struct {
	key               string          // in the row's hidden cells; of a point its measure
	reading           logbook.What    // as the logbook has it
	place             string          // the same; "" for the point's own
	wheel, what, unit string          // as shown
	set               string          // of what is asked of a whole set
	most              float64         // of a number
	full              logbook.Finding // expected: the one that needs no topping up
}

// words are the findings that the row offers, from good to bad; none where it
// asks for a number.
func (a ask) words() []logbook.Finding { return logbook.Findings(a.reading) }

// asks are what the form asks of a set as a whole.
var asks = map[profiles.Kind][]ask{
	profiles.Oil: {
		{key: "level", reading: logbook.OilLevel, place: "engine", wheel: "engine", what: "oil level, warm", unit: "dipstick", set: "oil", full: logbook.Full},
		{key: "added", reading: logbook.OilAdded, place: "engine", what: "oil added since last page", set: "oil", most: 50},
	},
	profiles.Fluid: {
		{key: "water", reading: logbook.Water, place: "system", wheel: "brakes", what: "water in the fluid", unit: "%", set: "fluid", most: 10},
		{key: "colour", reading: logbook.Color, place: "system", what: "color of the fluid", unit: "by eye", set: "fluid"},
		{key: "pedal", reading: logbook.Pedal, place: "system", what: "pedal", unit: "by foot", set: "fluid"},
	},
}

// measure is what the workbook knows of what is measured at a point.
type measure struct {
	kind.MeasureInfo
	unit   func(units) unit
	suffix string // of its place where a part has several measures
	label  string // its name where it has no place

	chart, alt string          // of the least level of each wheel, by leg
	nearly     logbook.Finding // of what is looked at, the finding that is nearly the end
	plain      bool            // the workbook knows nothing of it
}

// measures are those that the workbook knows.
var measures = map[kind.Measure]measure{
	kind.Tread: {
		unit:  func(u units) unit { return u.tread },
		chart: "Tread left in the shallowest zone of each wheel (nominal)",
		alt:   "Line chart of the nominal tread depth in the shallowest zone of each wheel, at the start and after each leg, with the limit.",
	},
	kind.PadLining: {
		unit:  func(u units) unit { return u.pad },
		chart: "Pads left at the thinnest end of each wheel (nominal)",
		alt:   "Line chart of the nominal pad thickness at each wheel, at the start and after each leg, with the limit.",
	},
	kind.Crack: {
		unit: func(u units) unit { return u.share }, suffix: "crack life", nearly: logbook.Catches,
		chart: "Rotor crack life left at each wheel (nominal)",
		alt:   "Line chart of the nominal share of rotor crack life left at each wheel, at the start and after each leg.",
	},
	kind.Thickness: {unit: func(u units) unit { return u.thickness }, suffix: "thickness"},
	kind.HubLife: {
		unit:  func(units) unit { return unit{"L10", asHundred, itself} },
		chart: "Chance that each hub bearing lasts, as planned",
		alt:   "Line chart of the chance that each hub bearing lasts to the end of each leg.",
	},
	kind.OilLife:    {unit: func(u units) unit { return u.distance }, label: "distance left"},
	kind.BoilMargin: {unit: func(u units) unit { return u.warmth }},
}

// measureOf is what the workbook knows of a measure; another is shown as a share
// of life.
func measureOf(m kind.Measure) measure {
	out, ok := measures[m]
	if !ok {
		name := string(m)
		out = measure{unit: func(u units) unit { return u.share }, suffix: choose(m.Info().Zoned(), "", name), plain: true}
	}
	out.MeasureInfo = m.Info()
	return out
}

// of is the kind whose sets are told by the measure; nil where another measure
// of it tells them.
func (m measure) of() *kind.Kind {
	i := slices.IndexFunc(kind.All, func(k *kind.Kind) bool { return k.Measures[0].Measure == m.Measure })
	if i < 0 || asks[kind.All[i].ID] != nil {
		return nil
	}
	return kind.All[i]
}

// asked is what the form asks of a point: a reading, or what is found where no
// gauge reads it.
func (m measure) asked() ask {
	if k := m.of(); m.Form.Row == "" && k != nil && len(k.Findings) > 0 {
		return found(k.Findings[0])
	}
	return ask{reading: m.Form.Row, what: m.Form.What}
}

// beside is what an eye finds beside a reading.
func (m measure) beside() []ask {
	var out []ask
	if k := m.of(); k != nil && m.Form.Row != "" {
		for _, f := range k.Findings {
			out = append(out, found(f))
		}
	}
	return out
}

// found is the question that findings answer.
func found(f kind.Findings) ask {
	a := ask{reading: f.Row, what: f.What, unit: "by " + f.By}
	owner, _ := profiles.KindRead(f.Row)
	for _, r := range owner.Info().Readings {
		if r.What == f.Row {
			a.key = r.Key
		}
	}
	return a
}

// plainKey ends the key of a point whose measure the workbook does not know, so
// that reading takes its word for what it asked.
const plainKey = "/plain"

// key of a point's row: its place, zone and measure.
func (m measure) key(p plan.Point) string {
	return p.Place + "/" + p.Zone + "/" + string(p.Measure) + choose(m.plain, plainKey, "")
}

// askOf finds what a row of the form asked for by its hidden key.
func askOf(key string) (a ask, zone string, ok bool) {
	for _, of := range asks {
		if i := slices.IndexFunc(of, func(a ask) bool { return a.key == key }); i >= 0 {
			return of[i], "", true
		}
	}
	bare, plain := strings.CutSuffix(key, plainKey)
	at := strings.Split(bare, "/")
	if len(at) != 3 || at[0] == "" || at[2] == "" || !plain && !slices.Contains(walk, at[0]) {
		return ask{}, "", false
	}
	m := measureOf(kind.Measure(at[2]))
	a, zone = m.asked(), choose(m.Zoned() || m.plain, at[1], "")
	for _, k := range kind.All {
		for _, one := range measureOf(k.Measures[0].Measure).beside() {
			if one.key == at[2] {
				m.plain, a, zone = false, one, ""
			}
		}
	}
	a.place = at[0]
	return a, zone, m.plain == plain && a.reading != ""
}

// spot names a point among those of its measure: the place, and the zone where
// a place has several.
func spot(p plan.Point) string {
	if p.Zone == "" || measureOf(p.Measure).suffix != "" {
		return p.Place
	}
	return p.Place + " " + p.Zone
}

// spotOf names a point within its set.
func spotOf(p plan.Point) string {
	m := measureOf(p.Measure)
	if m.label != "" {
		return m.label
	}
	return strings.TrimSpace(spot(p) + " " + m.suffix)
}

// heats says whether any of a set's points wears by how hot a session gets.
func heats(t plan.Set) bool {
	return slices.ContainsFunc(t.Points, func(p plan.Point) bool { return p.Measure.Info().Heats })
}

// doing is when an action is due and how loud it looks, in the order of urgency.
type doing struct {
	action plan.Action
	due    string
	look   weight
}

var doings = []doing{
	{plan.DoNotTake, "do not leave", stop},
	{plan.ReplaceBefore, "before leaving", act},
	{plan.Bring, "pack", alert},
	{plan.ReplaceAtStop, "on the way", act},
	{plan.Watch, "at each check", alert},
	{plan.Run, "", calm},
}

// urgency is where an action stands among the doings.
func urgency(a plan.Action) int {
	return slices.IndexFunc(doings, func(d doing) bool { return d.action == a })
}

func doingOf(a plan.Action) doing { return doings[urgency(a)] }
