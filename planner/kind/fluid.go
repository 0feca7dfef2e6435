package kind

import (
	"math"
	"strings"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/brake"
)

const daysPerYear = 12 * Month

// BoilMargin is K between the fluid and its boiling point.
const BoilMargin Measure = "boil margin"

const notWet = "a light color does not tell the water"

// Fluid is the brake fluid, followed by its margin to boiling: every circuit
// leg has its own, and the lowest so far counts.
var Fluid = &Kind{
	ID: profiles.Fluid, Sheet: brakes,
	Critical: true, Apart: true,
	Measures: []MeasureInfo{{
		Measure: BoilMargin, Level: quantity.Warmth, Taken: quantity.Warmth, Digits: 2, End: "boil",
		Label: "brake fluid's rise, UNIT", Note: "lowest margin to boiling so far",
	}},
	Spreads: func(a At) Spreads {
		s := a.Folder.Model.Spread
		return Spreads{Circuit: float64(s.FluidHeat), Summary: float64(s.FluidHeat)}
	},
	Points: func(a At) []Point {
		fill := Fill(a.Part.Fluid)
		in, _ := inside(a)
		return []Point{{
			Measure: BoilMargin, New: fill.Dry, Margin: float64(a.Part.Fluid.Warn),
			Of: func(w *Wear) float64 {
				if !w.Circuit {
					return 0
				}
				return fill.Hottest(w.Bulk, w.Ambient, w.PadsWorn) - w.Ambient
			},
			Cap: func(m Moment) float64 { return in.Boils(in.Water(waterYears(a, m))) - m.Ambient },
		}}
	},
	Unread: func(a At) string {
		if a.Part.Fluid.Uptake > 0 && a.Entry.Water > 0 {
			return "water measured"
		}
		_, in := inside(a)
		if a.Entry.Since.Undated {
			return unknownDay + in
		}
		return "water estimated from its age" + in
	},
	Hangs: func(a At) string { return onSize(a, "LF", "LR") },
	Findings: []Findings{
		{
			Ask:   Ask{logbook.Color, "color of the fluid", "eye"},
			Where: func(p profiles.Part) bool { return p.Fluid.Uptake > 0 },
			List: []Finding{
				{Word: logbook.Clear, Silent: notWet}, {Word: logbook.Amber, Silent: notWet},
				{Word: logbook.Dark, Text: "dark: taken as wet%.0s"},
			},
		},
		{
			Ask: Ask{logbook.Pedal, "pedal", "foot"},
			List: []Finding{
				{Word: logbook.Firm, Text: "firm pedal%.0s"},
				{Word: logbook.Long, Text: "a long pedal: find out why first (a loose hub that knocks the pads back, pads worn aslant, a leak)", Forbids: true, Final: true},
				{Word: logbook.Soft, Text: "a soft pedal: air or boiled fluid; flush and bleed, and it must be firm after", Forbids: true},
			},
		},
	},
	Asks: []Ask{{Row: logbook.Water, What: "water in the fluid"}},
	Buy: func(p profiles.Part) Purchase {
		return Purchase{Count: max(1, int(math.Ceil(float64(p.Fluid.Quantity)/BottleSize-1e-9))), As: Bottle, Fluid: BottleSize}
	},
	Guess:  Guess{0.2, 1.2e-3, 1.2},
	Lasts:  func(p profiles.Part) float64 { return float64(p.Fluid.Wet) },
	Spare:  "fill",
	Advice: "measure the water content",
}

// Bottles as they are sold. Common practice, no source.
const (
	Bottle     = "bottle"
	BottleSize = 0.5e-3 // m3, of brake fluid
	Liter      = 1e-3   // m3, of oil
)

// colorWater is how much water (share) a color says at least. Dark fluid is
// taken as wet: engineering choice.
func colorWater(color logbook.Finding) float64 {
	const wet = 0.037 // 49 CFR 571.116
	if color == logbook.Dark {
		return wet
	}
	return 0
}

// waterYears is the age of a fill, or the years that its water or its color
// say at least.
func waterYears(a At, m Moment) float64 {
	fill, _ := inside(a)
	older := fill.Years(colorWater(a.Entry.Color))
	if a.Entry.Water > 0 && fill.Uptake > 0 {
		return max(fill.Years(float64(a.Entry.Water))+m.Away/daysPerYear, older)
	}
	return max(m.Age/daysPerYear, older)
}

// inside is the fluid that is in, and how it is known where it is not the part
// that goes in next.
func inside(a At) (brake.Fluid, string) {
	grade, how := a.Entry.Grade, "; it is DOT "+strings.TrimPrefix(a.Entry.Grade, "dot-")
	switch grade {
	case "":
		return Fill(a.Part.Fluid), ""
	case "unknown":
		grade, how = "dot-3", "; nobody knows what it is: taken as DOT 3"
	}
	return Fill(a.Folder.Parts["fluid-"+grade].Fluid), how
}

// Fill is a brake fluid as the wear model sees it.
func Fill(p *profiles.FluidPart) brake.Fluid {
	return brake.Fluid{
		Dry: float64(p.Dry), Wet: float64(p.Wet), Uptake: float64(p.Uptake),
		HeatThick: float64(p.HeatThick), HeatWorn: float64(p.HeatWorn),
	}
}
