package kind

import (
	"fmt"
	"math"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/brake"
)

// The measures of a rotor.
const (
	Crack     Measure = "crack life" // share left, 1 new, 0 the limit
	Thickness Measure = "thickness"  // m
)

// Rotors are an axle's brake rotors; what they lose is worked out with the
// pads.
var Rotors = &Kind{
	ID: profiles.Rotors, Called: "brakes discs", Sheet: brakes, Spread: "spread.rotor crack",
	Critical: true, WheelsOff: true, Beds: true, Replaced: true, Order: true,
	LaborWith: profiles.Pads,
	Measures: []MeasureInfo{
		{
			Measure: Crack, Level: quantity.Percent, Taken: quantity.Percent, Digits: 2, End: "reach the limit", Heats: true,
			Label: "PLACE rotor cracks, UNIT", Note: "life left before cracks, share of a new rotor",
		},
		{
			Measure: Thickness, Length: true, Level: quantity.Thickness, Taken: quantity.Thickness, Digits: 2, End: "reach the limit",
			Label: "PLACE rotor, UNIT", Form: Ask{Row: logbook.Thickness, What: "rotor thickness"},
		},
	},
	Spreads: func(a At) Spreads {
		s := a.Folder.Model.Spread
		_, own := guess(a)
		return Spreads{float64(s.RotorThickness), math.Hypot(math.Hypot(float64(s.RotorCrack), 2*own), 2*sizeSpread(a)), float64(s.SummaryCrack), math.Hypot(2*own, 2*sizeSpread(a))}
	},
	Caught: func(c profiles.Caught, _ Way) quantity.Share { return c.RotorCrack },
	Points: rotorPoints,
	Unread: estimated,
	Hangs:  func(a At) string { return onSize(a, a.Place) },
	State:  larger,
	Findings: []Findings{{
		Ask: Ask{logbook.Face, "rotor face (life left)", "eye"},
		List: []Finding{
			{Word: logbook.Smooth, Text: "%s: smooth", Lower: cracked(brake.Smooth)},
			{Word: logbook.Checks, Text: "%s: heat checks that a fingernail does not catch", Lower: cracked(brake.HeatChecks)},
			{Word: logbook.Catches, Text: "%s: cracks catch a fingernail, so it has a tenth of its life at most", Circuit: true, Watched: true, Ended: true, Lower: cracked(brake.Catches)},
			{Word: logbook.Edge, Text: "a crack reaches the edge of the rotor", Forbids: true, Ended: true, Lower: cracked(brake.EdgeCrack)},
		},
	}},
	Buy:   func(profiles.Part) Purchase { return Purchase{Count: 1, As: "pair"} },
	Guess: Guess{1.2, 9e-3, 14},
	Lasts: func(p profiles.Part) float64 { return -float64(p.Rotors.Crack) },
	Spare: "full spare set",
	Checks: []Check{
		{When: Session, Who: Watched, By: ByEye, Looks: Crack, Say: func(l Looked) string {
			return fmt.Sprintf("%s: run a fingernail over the faces, %s first; %s of life expected back home; stop at a crack that catches the nail or reaches the edge%s", l.Set, l.Place, l.Life, l.Spare)
		}},
		{When: Night, By: ByEye, Say: func(l Looked) string { return l.Set + ": look for heat checks and a crack at the edge" }},
	},
	Look:   "rotors with a fingernail",
	Advice: "measure thickness, and note after how many circuit days the faces check",
}

// larger says that a rotor is taken to be larger than the stock's, where that
// makes a difference.
func larger(a At) []Verdict {
	times, _ := assumedSize(a.Folder.Car, a.Part)
	if times < 1.1 {
		return nil
	}
	return []Verdict{{Text: fmt.Sprintf("%s: its size is assumed, %.1f times the mass of a mid-size car's; the diameter and thickness stamped on it would say", a.Place, times)}}
}

func rotorPoints(a At) []Point {
	p, r := wheel(a.Place), a.Part.Rotors
	crack := Point{
		Zone: "face", Measure: Crack, Said: "life used as given",
		New: 1, Limit: 1 - float64(r.CrackLimit), Margin: 1 - float64(r.CrackMargin),
		Of: func(w *Wear) float64 { return w.Crack[p] },
	}
	if used, ok := a.Entry.Used[a.Place]; ok {
		v := float64(used)
		crack.Used = &v
	}
	thick := Point{
		Measure: Thickness, What: logbook.Thickness, Said: ", thickness measured", Also: true,
		New: float64(r.NewThickness), Limit: float64(r.Discard), Margin: float64(r.Discard),
		Of: func(w *Wear) float64 { return w.Thickness[p] },
	}
	if left, ok := a.Entry.Thickness[a.Place]; ok {
		v := float64(left)
		thick.Read = &v
	}
	return []Point{crack, thick}
}

// cracked lowers the crack life to what a look at the face says.
func cracked(look brake.Look) func(Point, float64) float64 {
	return func(p Point, level float64) float64 {
		if p.Measure != Crack {
			return level
		}
		return math.Min(level, 1-look.Damage(1-level))
	}
}
