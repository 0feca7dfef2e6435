// Package parts holds what a part is: the table of the kinds, the values of each,
// the stock, and what is known of a part on a car.
package parts

import (
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// Kind is the kind of a part.
type Kind string

// The kinds of part tripwear follows.
const (
	Tire    Kind = "tire"
	Pads    Kind = "pads"
	Rotors  Kind = "rotors"
	Bearing Kind = "bearing"
	Oil     Kind = "oil"
	Fluid   Kind = "fluid"
)

// kinds is the table of the kinds of part, in the order of a walk round the car.
// A new kind is a constant above, a block and a field of Part, a row here, its
// stock parts in stock/KIND.yaml, and a row of logbook's for what is found on it;
// one of limited parts is an entry of stock/limited.yaml.
var kinds = append([]KindInfo{
	{
		Kind: Tire, Plural: "tires", Sets: byAxle(Tire, "tires", "tires"), Needed: true, Rated: true, Swaps: true,
		Readings: []Reading{
			{
				Key: "tread", What: logbook.Tread,
				New: func(p *Part) quantity.Length { return p.Tire.NewDepth }, NewKey: "new_depth",
				Gauge: func(g Gauge) quantity.Length { return g.Tread },
			},
			{Key: "found", What: logbook.Inspection},
			{Key: "built"},
			{Key: "probe", What: logbook.Probe},
		},
		block: func(p *Part) any { return &p.Tire },
		print: func(p *Part, o owned) { p.Tire.bySize(o) },
		Check: func(p *Part, check Expect) { wearsDown(p.Tire.Limit, p.Tire.Margin, p.Tire.NewDepth, check) },
	},
	{
		Kind: Pads, Plural: "pads", Sets: byAxle(Pads, "pads", "pads"), Needed: true, Rated: true, Swaps: true,
		Readings: []Reading{
			{
				Key: "pad", What: logbook.Pad,
				New: func(p *Part) quantity.Length { return p.Pads.NewDepth }, NewKey: "new_depth",
				Gauge: func(g Gauge) quantity.Length { return g.Pad },
			},
			{Key: "lining", What: logbook.Lining},
		},
		block: func(p *Part) any { return &p.Pads },
		Check: func(p *Part, check Expect) { wearsDown(p.Pads.Limit, p.Pads.Margin, p.Pads.NewDepth, check) },
	},
	{
		Kind: Rotors, Plural: "rotors", Sets: byAxle(Rotors, "rotors", "rotors"), Needed: true, Swaps: true,
		Readings: []Reading{
			{
				Key: "thickness", What: logbook.Thickness,
				New: func(p *Part) quantity.Length { return p.Rotors.NewThickness }, NewKey: "new_thickness",
				Gauge: func(Gauge) quantity.Length { return thickGauge },
			},
			{Key: "used"},
			{Key: "face", What: logbook.Face},
		},
		block: func(p *Part) any { return &p.Rotors },
		print: func(p *Part, o owned) { p.Rotors.byDiameter(o) },
		Check: func(p *Part, check Expect) {
			t := p.Rotors
			check(t.Diameter == 0 || t.Inner < t.Diameter, "inner is not below diameter", "a ring between the two", "inner", "diameter")
			check(t.Discard < t.NewThickness, "discard is not below new_thickness", "a thickness that wear reaches", "discard", "new_thickness")
			check(t.CrackMargin <= t.CrackLimit, "crack_margin is above crack_limit", "a margin of at most the limit", "crack_margin", "crack_limit")
		},
	},
	{
		Kind: Bearing, Plural: "hub bearings", Sets: byWheel(Bearing, "hub", "hub bearing"), Needed: true,
		Readings: []Reading{{Key: "used"}, {Key: "feel", What: logbook.Hub}},
		block:    func(p *Part) any { return &p.Bearing },
	},
	{
		Kind: Oil, Plural: "engine oil", Sets: single(Oil, "oil", "engine oil", "engine"), Needed: true, Dated: true, Fill: true,
		Readings: []Reading{{What: logbook.OilLevel}},
		block:    func(p *Part) any { return &p.Oil },
		Check: func(p *Part, check Expect) {
			check(p.Oil.Interval <= p.Oil.Ceiling, "interval is beyond ceiling", "an interval of at most the ceiling", "interval", "ceiling")
		},
	},
	{
		Kind: Fluid, Plural: "brake fluid", Sets: single(Fluid, "fluid", "brake fluid", "system"), Needed: true, Dated: true, Fill: true,
		Readings: []Reading{
			{Key: "water", What: logbook.Water},
			{Key: "color", What: logbook.Color},
			{Key: "pedal", What: logbook.Pedal},
		},
		block: func(p *Part) any { return &p.Fluid },
		Check: func(p *Part, check Expect) {
			check(p.Fluid.Wet < p.Fluid.Dry, "wet is not below dry", "a boiling point that water lowers", "wet", "dry")
			check(p.Fluid.HeatThick <= p.Fluid.HeatWorn, "heat_thick is above heat_worn", "less heat through a thick pad than through a worn one", "heat_thick", "heat_worn")
		},
	},
}, limitedKinds()...)

// thickGauge is the scatter of a rotor's thickness, m, one standard deviation.
// Engineering choice.
const thickGauge = 0.05e-3

// wearsDown checks a level's end against its margin and the level when new.
func wearsDown(limit, margin, depth quantity.Length, check Expect) {
	check(limit <= margin && margin < depth, "limit, margin and new_depth do not grow in this order", "a limit of at most the margin, and a margin below new_depth", "margin", "limit", "new_depth")
}
