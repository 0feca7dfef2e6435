package kind

import (
	"fmt"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/bearing"
	"example.com/tripwear/wearmodel/duty"
)

// HubLife is L10 lives left until the failure that was drawn.
const HubLife Measure = "hub life"

// oilAndBearings is the workbook's sheet of both.
const oilAndBearings = "Oil and bearings"

// Bearing is one wheel's hub bearing.
var Bearing = &Kind{
	ID: profiles.Bearing, Called: "wheel", Sheet: oilAndBearings,
	Critical: true, Lifetime: true, WheelsOff: true, Replaced: true,
	Measures: []MeasureInfo{{
		Measure: HubLife, Level: quantity.Percent, Taken: quantity.Percent, Digits: 2, End: "fail",
		Label: "PLACE hub, UNIT of L10", Note: "chance of being still good",
	}},
	Spreads: func(a At) Spreads {
		s := a.Folder.Model.Spread
		return Spreads{Road: float64(s.HubRoad), Summary: float64(s.SummaryHub)}
	},
	Caught: func(c profiles.Caught, _ Way) quantity.Share { return c.Hub },
	Points: func(a At) []Point {
		p := wheel(a.Place)
		pt := Point{Measure: HubLife, New: 1, Said: "life used as given", Of: func(w *Wear) float64 { return w.Hub[p] }}
		if used, ok := a.Entry.Used[a.Place]; ok {
			v := float64(used)
			pt.Used = &v
		}
		return []Point{pt}
	},
	Unread: func(a At) string {
		if a.Entry.Since.Unmetered { // nothing on it tells
			return "nobody knows since when it is on: it counts as old as the car"
		}
		return estimated(a)
	},
	Findings: []Findings{{
		Ask: Ask{logbook.Hub, "hub at 12 and 6 (lasts)", "hand"},
		List: []Finding{
			{Word: logbook.Tight, Text: "%s found tight"},
			{Word: logbook.Play, Text: "play at 12 and 6 o'clock", Forbids: true, Ended: true},
			{Word: logbook.Rough, Text: "rough when turned by hand", Forbids: true, Ended: true},
			{Word: logbook.Moved, Text: "the mark on its nut has moved", Forbids: true, Ended: true},
		},
	}},
	State: outlived,
	Road: func(ask RoadAsk, w *Wear) {
		for _, p := range duty.Places {
			w.Hub[p] = bearing.Road(ask.Hubs[p], ask.Meters)
		}
	},
	Circuit: func(ask CircuitAsk, w *Wear) {
		easy := bearing.Circuit(ask.Vehicle, ask.Hubs, ask.Radius, ask.Slow)
		for p, perLap := range bearing.Circuit(ask.Vehicle, ask.Hubs, ask.Radius, ask.Hot) {
			w.Hub[p] = float64(perLap*ask.HotLaps) + float64(easy[p]*ask.SlowLaps)
		}
	},
	Buy: func(profiles.Part) Purchase {
		return Purchase{Count: 1, As: "hub", With: "its nut where the maker wants a new one"}
	},
	Guess: Guess{0.8, 2e-3, 2.5},
	Lasts: func(p profiles.Part) float64 { return float64(p.Bearing.Capacity) },
	Spare: "spare hub",
	Checks: []Check{
		{When: Session, Who: AtOnce, By: ByHand, Say: func(l Looked) string {
			return fmt.Sprintf("shake each wheel at 12 and 6 o'clock, %s above all: %s chance to fail on this trip; %s", l.Place, l.Fail, l.Why)
		}},
	},
	Look:   "hubs at 12 and 6",
	Advice: "note when each hub was fitted and when it was found loose",
}

// outlived says of a hub that nobody knows the age of, or that is past the miles
// at which others are replaced, that it wants watching whatever the forecast
// says: a bearing gives no margin to read.
func outlived(a At) []Verdict {
	since, life := a.Entry.Since, a.Part.Bearing.RoadLife
	switch done := a.Folder.Car.Odometer - since.Odometer; {
	case since.Unmetered:
		return []Verdict{{Watched: true, Text: a.Place + ": nobody knows how old it is"}}
	case done > life:
		return []Verdict{{Watched: true, Text: fmt.Sprintf("%s: %s on it, past the %s at which they are replaced on average", a.Place, quantity.Distance.Both(float64(done)), quantity.Distance.Both(float64(life)))}}
	}
	return nil
}

func hub(b *profiles.BearingPart) bearing.Hub {
	return bearing.Hub{
		Offset:     float64(b.Offset),
		Spread:     float64(b.Spread),
		Capacity:   float64(b.Capacity),
		LoadFactor: float64(b.LoadFactor),
		Severity:   float64(b.Severity),
		RoadLife:   float64(b.RoadLife),
	}
}
