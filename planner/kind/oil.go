package kind

import (
	"fmt"
	"math"

	"example.com/tripwear/planner/labreport"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/oil"
)

// Month is days, the mean of the Gregorian calendar.
const Month = 365.2425 / 12

// OilLife is m of equivalent distance left to the ceiling.
const OilLife Measure = "oil life"

const toppedUp = "it is topped up: the level does not tell the oil's life"

// Oil is the engine's fill, followed by equivalent distance to its ceiling;
// months count too. A report on it may move the owner's two lines.
var Oil = &Kind{
	ID: profiles.Oil, Sheet: oilAndBearings, Spread: "spread.oil",
	Order: true,
	Measures: []MeasureInfo{{
		Measure: OilLife, Level: quantity.Hundreds, Taken: quantity.Distance, Digits: 3, End: "pass its ceiling", Minutes: true,
		Label: "oil, equivalent UNIT", Note: "equivalent distance left to its ceiling",
	}},
	Spreads: func(a At) Spreads {
		s := a.Folder.Model.Spread
		out := Spreads{Road: float64(s.Oil), Circuit: float64(s.Oil)}
		if a.Folder.Car.OilTemp == 0 {
			out.Circuit = math.Hypot(out.Circuit, float64(s.OilHeat))
		}
		return out
	},
	Points: func(a At) []Point {
		part := a.Part.Oil
		interval, ceiling := float64(part.Interval), float64(part.Ceiling)
		if r, err := labreport.Newest(a.Folder); r != nil && err == nil {
			interval, ceiling = r.Next, r.NextCeiling
		}
		p := Point{
			Measure: OilLife, New: ceiling, Margin: ceiling - interval,
			Of: func(w *Wear) float64 { return w.Oil },
		}
		if part.Months > 0 {
			limits := oil.Limits{Ceiling: ceiling, Months: float64(part.Months)}
			p.Cap = func(m Moment) float64 {
				_, used := limits.Used(0, m.Age/Month)
				return ceiling * (1 - used)
			}
		}
		return []Point{p}
	},
	Unread: func(a At) string {
		if a.Entry.Since.Undated {
			return estimated(a) + "; " + unknownDay
		}
		if a.Folder.Car.OilTemp == 0 {
			return estimated(a) + "; no gauge, so the oil's heat on circuit is assumed"
		}
		return estimated(a)
	},
	Findings: []Findings{{
		Ask: Ask{logbook.OilLevel, "oil level, warm", "dipstick"},
		List: []Finding{
			{Word: logbook.Full, Silent: toppedUp}, {Word: logbook.BelowFull, Silent: toppedUp}, {Word: logbook.BelowAdd, Silent: toppedUp},
		},
	}},
	State: reported,
	Asks:  []Ask{{Row: logbook.OilAdded, What: "oil added since last page"}},
	Road: func(ask RoadAsk, w *Wear) {
		w.Oil = oil.RoadEquivalent(ask.Meters, float64(ask.Surface.Oil), float64(ask.Model.Oil.RoadTemp))
	},
	Circuit: func(ask CircuitAsk, w *Wear) {
		w.Oil = ask.Machine.Oil.CircuitAt(ask.Seconds, ask.Ambient, ask.Hot.Pace, ask.PaceSD)
	},
	Buy: func(p profiles.Part) Purchase {
		return Purchase{Count: 1, As: "fill", Fluid: float64(p.Oil.Quantity), With: "filter and drain washer"}
	},
	Guess:  Guess{0.5, 6e-3, 5},
	Lasts:  func(p profiles.Part) float64 { return float64(p.Oil.Ceiling) },
	Spare:  "fill",
	AtStop: "look at the level again after ten minutes' rest at the first fuel stop",
	Early:  "interval", Late: "ceiling",
	Overdue:  2, // engineering choice
	Watching: "change it at home and sample it",
	AtHome:   "change the engine oil and send a sample",
	Advice:   "read the oil temperature on circuit, and send a sample at the change",
}

// reported says what the newest report does to the fill and the engine.
func reported(a At) []Verdict {
	r, err := labreport.Newest(a.Folder)
	if r == nil {
		return nil
	}
	say := func(format string, args ...any) Verdict { return Verdict{Text: fmt.Sprintf(format, args...)} }
	if err != nil {
		return []Verdict{say("its report is not used: %v", err)}
	}
	var out []Verdict
	switch {
	case r.Engine():
		out = append(out, Verdict{Forbids: true, Final: true, Text: "engine: coolant in the oil by the report of " + r.Sampled + "; it is not driven until that is put right"})
	case r.Verdict == oil.Stop && r.Current:
		out = append(out, Verdict{Forbids: true, Text: "engine: the report of " + r.Sampled + " forbids to run on this fill"})
	}
	if r.Verdict == oil.Flagged {
		out = append(out, say("the report of %s flags %s", r.Sampled, r.Flagged()))
	}
	switch share := 100 * (r.Next/r.Interval - 1); {
	case share > 0:
		return append(out, say("the report of %s lengthens the interval by %.0f %%", r.Sampled, share))
	case share < 0:
		return append(out, say("the report of %s shortens the interval by %.0f %%", r.Sampled, -share))
	}
	return append(out, say("the report of %s leaves the interval as it is", r.Sampled))
}
