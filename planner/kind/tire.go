package kind

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"time"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/tire"
)

// Tread is m of depth.
const Tread Measure = "tread"

// Zones are the zones of a tread, from the car's side out.
var Zones = [3]string{"inside", "middle", "outside"}

// Tire is a pair of tires on an axle.
var Tire = &Kind{
	ID: profiles.Tire, Called: "tread", Sheet: "Tires", Spread: "spread.tire circuit",
	Critical: true, WheelsOff: true, Order: true,
	SwapTime: 0.5 * 3600, SwapTools: []string{"jack and stands", "wheel wrench", "torque wrench"},
	Rates: []string{"abrasion"},
	Measures: []MeasureInfo{{
		Measure: Tread, Length: true, Level: quantity.Tread, Taken: quantity.Tread, Digits: 2, End: "reach the limit",
		Label: "PLACE ZONE tread, UNIT", Note: "tread left at the zone nearest its limit",
		Form: Ask{Row: logbook.Tread, What: "tread"},
	}},
	Spreads: func(a At) Spreads {
		s := a.Folder.Model.Spread
		own, _ := guess(a)
		return Spreads{math.Hypot(float64(s.TireRoad), own), math.Hypot(float64(s.TireCircuit), own), float64(s.SummaryTread), own}
	},
	Caught: func(c profiles.Caught, by Way) quantity.Share { return written(by, c.Tread, c.Look) },
	Points: treadZones,
	Unread: estimated,
	Findings: []Findings{{
		Ask: Ask{logbook.Inspection, "tire, cuts and cords", "eye"},
		List: []Finding{
			{Word: logbook.Sound, Text: "%s found sound"},
			{Word: logbook.Cut, Text: "a cut; nobody drives a circuit on it before a tire shop has judged it", Forbids: true},
			{Word: logbook.Cords, Text: "cords show", Forbids: true},
		},
	}},
	Heated: func(p profiles.Part) (float64, bool) { return float64(p.Tire.HeatCycles), true },
	Beside: func(a At) []Beside {
		out := []Beside{{"age", func(m Moment, _ float64) float64 { y, _ := tireYears(a, m.Day); return y / tireLast }}}
		if most := float64(a.Part.Tire.HeatCycles); most > 0 {
			out = append(out, Beside{"heat cycles", func(_ Moment, cycles float64) float64 { return cycles / most }})
		}
		return out
	},
	State: func(a At) []Verdict { return slices.Concat(aged(a), heated(a), shallow(a)) },
	Road: func(ask RoadAsk, w *Wear) {
		km := ask.Meters / 1000
		for p, rate := range tire.Road(ask.Vehicle, ask.Tires, ask.Duty, float64(ask.Surface.Tread)) {
			for z := range rate.Zones {
				w.Tread[p][z] = rate.Zones[z] * km
			}
		}
	},
	Circuit: func(ask CircuitAsk, w *Wear) { w.Tread = CircuitTread(ask) },
	Buy: func(profiles.Part) Purchase {
		return Purchase{Count: 1, As: "pair", With: "mounted and balanced, new valves"}
	},
	Guess:  Guess{3, 180e-3, 22},
	Lasts:  func(p profiles.Part) float64 { return float64(p.Tire.Treadwear) },
	Spare:  "full spare set",
	Gauges: []Gauge{{"tire pressure gauge", false}, {"tread depth gauge", true}},
	Checks: []Check{
		{When: Fuel, By: ByGauge, Reads: Tread, Say: func(l Looked) string {
			return fmt.Sprintf("%s: cuts and cords, pressure when cold; depth at %s %s", l.Set, l.Place, l.Zone)
		}},
		{When: Session, Who: Watched, By: ByGauge, Reads: Tread, Say: depthAt},
		{When: Session, Who: Unwatched, By: ByEye, Say: func(l Looked) string { return l.Set + ": look over the tread, for cuts and cords" }},
		{When: Night, Who: Watched, By: ByGauge, Reads: Tread, Say: depthAt},
	},
	Look:   "tread",
	Advice: "measure depth at three zones before and after a circuit day and a long road leg",
}

func depthAt(l Looked) string { return fmt.Sprintf("%s: depth at %s %s", l.Set, l.Place, l.Zone) }

// estimated says how an unmeasured start is known.
func estimated(a At) string {
	if a.Entry.Since.Unmetered {
		return "nobody knows since when it is on: it may be as old as the car"
	}
	return "estimated from its distance and circuit days"
}

func treadZones(a At) []Point {
	p, t := wheel(a.Place), a.Part.Tire
	depths := a.Entry.Tread[a.Place]
	var out []Point
	for z, zone := range Zones {
		pt := Point{
			Zone: zone, Measure: Tread, What: logbook.Tread, Said: "measured",
			New: float64(t.NewDepth), Limit: float64(t.Limit), Margin: float64(t.Margin),
			Gauge: float64(a.Folder.Car.Gauge.Tread),
			Of:    func(w *Wear) float64 { return w.Tread[p][z] },
		}
		if len(depths) == len(Zones) && !a.Entry.Seen[profiles.SeenKey(logbook.Tread, a.Place, zone)].New {
			v := float64(depths[z])
			pt.Read = &v
		}
		out = append(out, pt)
	}
	return out
}

// What age does to a tire whatever its tread. Car makers advise to replace
// after 6 years, tire makers after 10 at the latest; from memory.
const (
	tireOld  = 6.0  // years
	tireLast = 10.0 // years
)

// aged judges a tire's age at the end of the trip.
func aged(a At) []Verdict {
	years, how := tireYears(a, a.End)
	then := "before the trip ends"
	if a.Parked {
		then = "ago"
	}
	switch {
	case years > tireLast:
		return []Verdict{forbidden(a.Place, Verdict{Text: fmt.Sprintf("%s %.0f years %s, past the %.0f that tire makers allow", how, years, then, tireLast)})}
	case years > tireOld:
		return []Verdict{{Watched: true, Text: fmt.Sprintf("%s is %.0f years old: past the %.0f that car makers advise, look for cracks in the sidewall", a.Place, years, tireOld)}}
	case years < 0:
		return []Verdict{{Watched: true, Text: fmt.Sprintf("%s has a week code later than the trip: read it again", a.Place)}}
	}
	return nil
}

// tireYears is a tire's age on a day, from its week code or else since it went on;
// NaN where neither is known.
func tireYears(a At, end time.Time) (years float64, how string) {
	years, how = builtFor(a.Entry.Built[a.Place], end), "built"
	if since := a.Entry.Since.Date; math.IsNaN(years) && !since.IsZero() && !end.IsZero() {
		years, how = end.Sub(since).Hours()/(24*12*Month), "fitted"
	}
	return years, how
}

// heated judges how often a tire has been hot by the end of the trip. It loses
// grip with that and not tread. Common practice, no source.
func heated(a At) []Verdict {
	most := float64(a.Part.Tire.HeatCycles)
	if most == 0 || a.Cycles == nil {
		return nil
	}
	n := math.Round(a.Cycles())
	if n <= most {
		return nil
	}
	return []Verdict{{Watched: true, Text: fmt.Sprintf("%s comes to %.0f heat cycles, past the %.0f you give it: it may have tread left and not its grip", a.Place, n, most)}}
}

// shallow judges tread as read against what rain wants on a wet trip. Its wettest
// leg counts: a mean over the trip would make more dry miles good news.
func shallow(a At) []Verdict {
	least, zone := math.Inf(1), ""
	for _, p := range treadZones(a) {
		if p.Read != nil && *p.Read < least {
			least, zone = *p.Read, p.Zone
		}
	}
	want := float64(a.Part.Tire.WetMargin)
	if !a.Wet || least >= want {
		return nil
	}
	return []Verdict{forbidden(a.Place, Verdict{Text: fmt.Sprintf("%s %s, under the %s that rain wants, and this trip is wet", zone, quantity.Tread.BothUnder(least, want), quantity.Tread.Both(want))})}
}

// builtFor is a part's age in years on a day, from its week code; NaN where
// there is no code or no day.
func builtFor(code string, end time.Time) float64 {
	if len(code) != 4 || end.IsZero() {
		return math.NaN()
	}
	week, _ := strconv.Atoi(code[:2]) // a profile holds digits only
	year, _ := strconv.Atoi(code[2:])
	born := time.Date(2000+year, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, 7*(week-1))
	return end.Sub(born).Hours() / (24 * 12 * Month)
}

func tread(t *profiles.TirePart, model profiles.Model, friction float64) tire.Tread {
	const milligramPerKmTonne = 1e-12 // in kg per m per kg of load
	return tire.Tread{
		Grade:     float64(t.Treadwear),
		Radius:    float64(t.Radius),
		Width:     float64(t.TreadWidth),
		Land:      float64(t.Land),
		Cornering: float64(t.Cornering),
		Driving:   float64(t.Driving),
		Friction:  friction,
		Abrasion:  float64(t.Abrasion),
		HotFactor: float64(model.Tire.HotFactor),
		RoadRate:  float64(model.Tire.RoadRate) * milligramPerKmTonne,
		Density:   float64(model.Tire.Density) * 1000,
	}
}

// CircuitTread is what a day's hot laps and slow laps take from the treads.
func CircuitTread(ask CircuitAsk) (depth [4][3]float64) {
	gentle := tire.Circuit(ask.Vehicle, ask.Tires, ask.Slow)
	for p, rate := range tire.Circuit(ask.Vehicle, ask.Tires, ask.Hot) {
		for z := range rate.Zones {
			depth[p][z] = float64(rate.Zones[z]*ask.HotLaps) + float64(gentle[p].Zones[z]*ask.SlowLaps)
		}
	}
	return depth
}
