package kind

import (
	"fmt"
	"math"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/brake"
)

// PadLining is m of friction material.
const PadLining Measure = "pad"

// brakes is the workbook's sheet of pads, rotors and fluid.
const brakes = "Brakes"

// Pads are an axle's brake pads. Their wear models work out the rotors' wear
// along with their own.
var Pads = &Kind{
	ID: profiles.Pads, Called: "brakes", Sheet: brakes, Spread: "spread.pad circuit",
	Critical: true, WheelsOff: true, Beds: true, Order: true,
	LaborWith: profiles.Rotors,
	Rates:     []string{"wear", "threshold", "activation"},
	Measures: []MeasureInfo{{
		Measure: PadLining, Length: true, Level: quantity.Pad, Taken: quantity.Pad, Digits: 2, End: "reach the limit", Heats: true,
		Label: "PLACE pad, UNIT", Note: "friction material left at the thinnest end",
		Form: Ask{Row: logbook.Pad, What: "pad, thinnest end"},
	}},
	Spreads: func(a At) Spreads {
		s := a.Folder.Model.Spread
		_, own := guess(a)
		own = math.Hypot(own, sizeSpread(a))
		return Spreads{float64(s.PadRoad), math.Hypot(float64(s.PadCircuit), own), float64(s.SummaryPads), own}
	},
	Caught: func(c profiles.Caught, by Way) quantity.Share { return written(by, c.Pads, c.Look) },
	Points: func(a At) []Point {
		p, pad := wheel(a.Place), a.Part.Pads
		pt := Point{
			Measure: PadLining, What: logbook.Pad, Said: "measured",
			New: float64(pad.NewDepth), Limit: float64(pad.Limit), Margin: float64(pad.Margin),
			Gauge: float64(a.Folder.Car.Gauge.Pad),
			Of:    func(w *Wear) float64 { return w.Pad[p] },
		}
		if left, ok := a.Entry.Pad[a.Place]; ok {
			v := float64(left)
			pt.Read = &v
		}
		return []Point{pt}
	},
	Unread: estimated,
	Hangs:  func(a At) string { return onSize(a, a.Place) },
	Findings: []Findings{{
		Ask: Ask{logbook.Lining, "pad wear", "eye"},
		List: []Finding{
			{Word: logbook.Even, Text: "%s wears evenly"},
			{Word: logbook.Taper, Text: "%s wears aslant: free the caliper's slides, and measure at the thin end", Watched: true},
			{Word: logbook.Indicator, Text: "%s is down to its wear indicator: the lining is put at its margin", Watched: true, Lower: toMargin},
			{Word: logbook.Plate, Text: "worn to the backing plate", Forbids: true},
		},
	}},
	Road: func(ask RoadAsk, w *Wear) {
		for i, a := range ask.Axles {
			w.brakes(i, brake.Road(ask.Vehicle, a, ask.Duty, ask.Meters))
		}
	},
	Circuit: func(ask CircuitAsk, w *Wear) {
		for i, a := range ask.Axles {
			out := brake.Run(ask.Vehicle, a, ask.Hot, ask.Sessions, ask.Ambient)
			w.brakes(i, out)
			w.TooHot[i] = a.Pad.TooHot(out)
		}
	},
	Buy:    func(profiles.Part) Purchase { return Purchase{Count: 1, As: "axle set"} },
	Guess:  Guess{1.2, 2.5e-3, 2.5},
	Lasts:  func(p profiles.Part) float64 { return float64(p.Pads.NewDepth-p.Pads.Limit) / float64(p.Pads.Wear) },
	Spare:  "full spare set",
	Gauges: []Gauge{{"pad gauge", true}, {"jack and stands", true}, {"wheel wrench", true}},
	Checks: []Check{
		{When: Session, Who: Watched, By: ByGauge, Reads: PadLining, Say: thinnest},
		{When: Session, Who: Unwatched, By: ByEye, Say: func(l Looked) string { return l.Set + ": look at the lining through the wheels" }},
		{When: Night, By: ByGauge, Reads: PadLining, Say: thinnest},
	},
	Look:   "pad",
	Advice: "measure the thinnest end before and after each circuit day",
}

func thinnest(l Looked) string {
	return fmt.Sprintf("%s: thickness at the thinnest end, %s%s", l.Set, l.Place, l.Spare)
}

// brakes puts down what an axle's brakes lose.
func (w *Wear) brakes(i int, out brake.Outcome) {
	for _, p := range []int{2 * i, 2*i + 1} {
		w.Pad[p] = out.PadThinnest
		w.Crack[p] = out.Crack
		w.Thickness[p] = out.Thickness
	}
	w.Peak[i], w.Face[i], w.Bulk[i] = out.Peak, out.Face, out.Bulk
}

func axle(p *profiles.PadsPart, rotor brake.Rotor, front bool) brake.Axle {
	return brake.Axle{
		Pad: brake.Pad{
			Wear:       float64(p.Wear),
			Threshold:  float64(p.Threshold),
			Activation: float64(p.Activation),
			MaxBulk:    float64(p.MaxBulk),
			RotorWear:  float64(p.RotorWear),
			Area:       float64(p.Area),
		},
		Rotor: rotor,
		Front: front,
	}
}
