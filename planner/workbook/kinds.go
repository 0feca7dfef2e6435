package workbook

import (
	"slices"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/workbook/form"
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

// measure is what the workbook knows of what is measured at a point.
type measure struct {
	form.Point
	unit   func(units) unit
	suffix string // of its place where a part has several measures
	label  string // its name where it has no place

	chart, alt string          // of the least level of each wheel, by leg
	nearly     logbook.Finding // of what is looked at, the finding that is nearly the end
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
		out = measure{unit: func(u units) unit { return u.share }, suffix: choose(m.Info().Zoned(), "", name)}
	}
	out.Point = form.PointOf(m)
	return out
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
