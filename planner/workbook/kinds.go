package workbook

import (
	"slices"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// Sheets that show kinds of parts.
const (
	tiresName  = "Tires"
	brakesName = "Brakes"
	oilName    = "Oil and bearings"
	othersName = "Other parts" // only where a plan has kinds without a sheet of their own
)

// remaining is how the workbook shows what a kind's sets have left.
type remaining int

const (
	shareLeft  remaining = iota // live, with a band: a share of a new part's life
	chanceLeft                  // the chance of lasting, as planned; what it takes is live
	marginLeft                  // degrees to boiling, as planned; it does not wear
)

// part is what the workbook knows of a kind of part.
type part struct {
	kind   profiles.Kind
	group  string // on the Summary
	sheet  string
	left   remaining
	spread string // the assumption that says where the rates' spread comes from
	asks   []ask  // of the set as a whole
}

// measure is what the workbook knows of what is measured at a point.
type measure struct {
	measure kind.Measure
	unit    func(units) unit
	suffix  string // of its place where a part has several measures
	label   string // its name where it has no place
	heats   bool   // wear goes by how hot a session gets, so a rate a lap holds for sessions of one length
	running bool   // wear goes by the minutes of sessions, not by laps

	table, note string // on the sheet of its kind
	chart, alt  string // of the least level of each wheel, by leg

	ask    ask    // on the form
	zoned  bool   // asked zone by zone
	plain  bool   // not in the table
	beside []ask  // by eye, below the row of a zone
	eyed   string // that zone
}

// ask is what a row of the form asks for, and what the logbook calls it.
type ask struct {
	key               string       // in the row's hidden cells; of a point its measure
	reading           logbook.What // as the logbook has it
	place             string       // the same; "" for the point's own
	wheel, what, unit string       // as shown
	set               string       // of what is asked of a whole set
	most              float64      // of a number
	expected          logbook.Finding
	nearly            logbook.Finding // the finding that is nearly the end
	full              logbook.Finding // the one that needs no topping up
}

// words are the findings that the row offers, from good to bad; none where it
// asks for a number.
func (a ask) words() []logbook.Finding { return logbook.Findings(a.reading) }

// kinds are the kinds in the order of the Summary.
var kinds = []part{
	{kind: profiles.Tire, group: "Tires", sheet: tiresName, spread: "spread.tire circuit"},
	{kind: profiles.Pads, group: "Pads", sheet: brakesName, spread: "spread.pad circuit"},
	{kind: profiles.Rotors, group: "Rotors", sheet: brakesName, spread: "spread.rotor crack"},
	{kind: profiles.Bearing, group: "Hub bearings", sheet: oilName, left: chanceLeft},
	{kind: profiles.Oil, group: "Engine oil", sheet: oilName, spread: "spread.oil", asks: []ask{
		{key: "level", reading: logbook.OilLevel, place: "engine", wheel: "engine", what: "oil level, warm", unit: "dipstick", set: "oil", expected: logbook.Full, full: logbook.Full},
		{key: "added", reading: logbook.OilAdded, place: "engine", what: "oil added since last page", set: "oil", most: 50},
	}},
	{kind: profiles.Fluid, group: "Brake fluid", sheet: brakesName, left: marginLeft, asks: []ask{
		{key: "water", reading: logbook.Water, place: "system", wheel: "brakes", what: "water in the fluid", unit: "%", set: "fluid", most: 10},
		{key: "colour", reading: logbook.Color, place: "system", what: "color of the fluid", unit: "by eye", set: "fluid"},
		{key: "pedal", reading: logbook.Pedal, place: "system", what: "pedal", unit: "by foot", set: "fluid"},
	}},
}

var measures = []measure{
	{
		measure: kind.Tread, unit: func(u units) unit { return u.tread }, zoned: true,
		chart: "Tread left in the shallowest zone of each wheel (nominal)",
		alt:   "Line chart of the nominal tread depth in the shallowest zone of each wheel, at the start and after each leg, with the limit.",
		ask:   ask{reading: logbook.Tread, what: "tread"}, eyed: "outside",
		beside: []ask{{key: "found", reading: logbook.Inspection, what: "tire, cuts and cords", unit: "by eye"}},
	},
	{
		measure: kind.PadLining, unit: func(u units) unit { return u.pad }, heats: true,
		table:  "Pads: friction material at the thinnest end",
		chart:  "Pads left at the thinnest end of each wheel (nominal)",
		alt:    "Line chart of the nominal pad thickness at each wheel, at the start and after each leg, with the limit.",
		ask:    ask{reading: logbook.Pad, what: "pad, thinnest end"},
		beside: []ask{{key: "lining", reading: logbook.Lining, what: "pad wear", unit: "by eye"}},
	},
	{
		measure: kind.Crack, unit: func(u units) unit { return u.share }, suffix: "crack life", heats: true,
		table: "Rotors: crack life left",
		note:  "A rotor's face overrides its forecast: heat checks that catch a fingernail are nearly the end, a crack at an edge is the end.",
		chart: "Rotor crack life left at each wheel (nominal)",
		alt:   "Line chart of the nominal share of rotor crack life left at each wheel, at the start and after each leg.",
		ask:   ask{reading: logbook.Face, what: "rotor face (life left)", unit: "by eye", nearly: logbook.Catches},
	},
	{
		measure: kind.Thickness, unit: func(u units) unit { return u.thickness }, suffix: "thickness",
		table: "Rotors: thickness", ask: ask{reading: logbook.Thickness, what: "rotor thickness"},
	},
	{
		measure: kind.HubLife, unit: func(units) unit { return unit{"L10 lives", asHundred, itself} },
		ask: ask{reading: logbook.Hub, what: "hub at 12 and 6 (lasts)", unit: "by hand"},
	},
	{measure: kind.OilLife, unit: func(u units) unit { return u.distance }, label: "distance left", running: true},
	{measure: kind.BoilMargin, unit: func(u units) unit { return u.warmth }},
}

// kindOf is what the workbook knows of a kind. One that it does not know wears
// like any other and stands on a plain sheet.
func kindOf(k profiles.Kind) part {
	if i := slices.IndexFunc(kinds, func(p part) bool { return p.kind == k }); i >= 0 {
		return kinds[i]
	}
	return part{kind: k, group: sentenceCase(string(k)), sheet: othersName, spread: "spread." + string(k)}
}

// measureOf is the same of a measure; one that it does not know is a share of
// life, read as a number.
func measureOf(m kind.Measure) measure {
	if i := slices.IndexFunc(measures, func(k measure) bool { return k.measure == m }); i >= 0 {
		return measures[i]
	}
	name := string(m)
	out := measure{
		measure: m, unit: func(u units) unit { return u.share }, suffix: name, table: sentenceCase(name), plain: true, zoned: true,
		ask: ask{reading: logbook.What(name), what: name},
	}
	for _, k := range kind.All {
		if len(k.Findings) > 0 && k.Measures[0].Measure == m && m.Info().Form.Row == "" {
			f := k.Findings[0] // no gauge reads it: it is looked at
			out.ask = ask{reading: f.Row, what: f.What, unit: "by " + f.By}
		}
	}
	return out
}

// kindsIn are the kinds of a plan, those that the workbook knows first.
func kindsIn(p *plan.Plan) []part {
	out := slices.Clone(kinds)
	for _, s := range p.Sets {
		if !slices.ContainsFunc(out, func(k part) bool { return k.kind == s.Kind }) {
			out = append(out, kindOf(s.Kind))
		}
	}
	return out
}

// plainKey ends the key of a point whose measure stands in no table, so that
// reading takes its word for what it asked.
const plainKey = "/plain"

// key of a point's row: its place, zone and measure.
func (m measure) key(p plan.Point) string {
	return p.Place + "/" + p.Zone + "/" + string(p.Measure) + choose(m.plain, plainKey, "")
}

// askOf finds what a row of the form asked for by its hidden key.
func askOf(key string) (a ask, zone string, ok bool) {
	for _, p := range kinds {
		if i := slices.IndexFunc(p.asks, func(a ask) bool { return a.key == key }); i >= 0 {
			return p.asks[i], "", true
		}
	}
	bare, plain := strings.CutSuffix(key, plainKey)
	at := strings.Split(bare, "/")
	if len(at) != 3 || at[0] == "" || at[2] == "" || !plain && !slices.Contains(walk, at[0]) {
		return ask{}, "", false
	}
	m := measureOf(kind.Measure(at[2]))
	for _, known := range measures {
		if i := slices.IndexFunc(known.beside, func(a ask) bool { return a.key == at[2] }); i >= 0 {
			m = measure{ask: known.beside[i]}
		}
	}
	m.ask.place = at[0]
	return m.ask, choose(m.zoned, at[1], ""), m.plain == plain && m.ask.reading != ""
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
	return slices.ContainsFunc(t.Points, func(p plan.Point) bool { return measureOf(p.Measure).heats })
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

// urgency is where an action stands among the doings; one that is not among
// them comes before all.
func urgency(a plan.Action) int {
	return slices.IndexFunc(doings, func(d doing) bool { return d.action == a })
}

// doingOf is the same of one action; one that is not known looks loudest.
func doingOf(a plan.Action) doing {
	if i := urgency(a); i >= 0 {
		return doings[i]
	}
	return doing{a, string(a), stop}
}
