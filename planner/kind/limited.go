package kind

import (
	"fmt"
	"math"
	"strings"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// limited are the kinds of parts without physics of their own: all that tells
// them apart is data.
func limited() []*Kind {
	var out []*Kind
	for _, info := range profiles.Kinds() {
		if info.Limited != nil {
			out = append(out, newLimited(info))
		}
	}
	return out
}

func newLimited(info profiles.KindInfo) *Kind {
	name, own := string(info.Kind), info.Limited
	life := Measure(name + " life") // share left, 1 new, 0 the limit
	return &Kind{
		ID: info.Kind, Sheet: "Other parts", Table: "other parts",
		Counted: true, Order: true, WheelsOff: own.WheelsOff, LaborWith: own.LaborWith,
		Measures: []MeasureInfo{{
			Measure: life, Level: quantity.Percent, Taken: quantity.Percent, Digits: 2, End: "pass its limit",
			Label: "PLACE " + name + ", ZONE, UNIT", Note: "life left by the limit that is nearest",
		}},
		Spreads: func(a At) Spreads {
			return Spreads{Road: float64(a.Part.Limited.Spread), Circuit: float64(a.Part.Limited.Spread)}
		},
		Own: func(p profiles.Part) Own {
			return Own{Name: named(own, p), Critical: p.Limited.Critical, Stranded: float64(p.Limited.Stranded)}
		},
		Heated: func(p profiles.Part) (float64, bool) {
			most := float64(p.Limited.Limits.HeatCycles)
			return most, most > 0
		},
		Points:   func(a At) []Point { return limits(a, life) },
		Unread:   counted,
		State:    undated,
		Findings: looks(info),
		Buy:      func(profiles.Part) Purchase { return Purchase{Count: 1, As: own.As, With: own.With} },
		Guess:    Guess{1, 2e-3, 2},
		Lasts: func(p profiles.Part) float64 {
			l := p.Limited.Limits
			return float64(l.Distance) + float64(1e5*(l.CircuitDays+l.Months))
		},
		Spare:  name,
		Checks: checked(info, life),
		Early:  "margin", Late: "limit",
		Look:     info.Plural,
		Watching: "replace it at home",
		AtHome:   "replace the " + name,
		Advice:   "take its limits from the maker's book or its label",
	}
}

// checked are its checks: once it is watched, and after every day of one on which
// something may be found.
func checked(info profiles.KindInfo, life Measure) []Check {
	look := func(l Looked) string {
		if c := l.Part.Limited.Check; c != "" {
			return l.Set + ": look for " + c
		}
		return l.Set + ": look at it"
	}
	out := []Check{{When: Session, Who: Watched, By: ByEye, Looks: life, Say: func(l Looked) string {
		return fmt.Sprintf("%s; %s of its life expected back home%s", look(l), l.Life, l.Spare)
	}}}
	if info.Readings[0].What != "" {
		out = append(out, Check{When: Night, By: ByEye, Say: look})
	}
	return out
}

// looks are what may be found on a kind that is looked at.
func looks(info profiles.KindInfo) []Findings {
	name, row := string(info.Kind), info.Readings[0].What
	if row == "" {
		return nil
	}
	list := []Finding{{Word: logbook.Sound, Text: "%s: " + name + " sound"}}
	for _, word := range info.Limited.Watch {
		list = append(list, Finding{Word: word, Text: fmt.Sprintf("%%s: %s %s", name, word), Watched: true})
	}
	for _, word := range info.Limited.Circuit {
		list = append(list, Finding{Word: word, Text: fmt.Sprintf("%%s: %s %s", name, word), Watched: true, Circuit: true})
	}
	for _, word := range info.Limited.Forbids {
		list = append(list, Finding{Word: word, Text: fmt.Sprintf("%s %s", name, word), Forbids: true})
	}
	return []Findings{{Ask: Ask{row, name, "eye"}, List: list}}
}

// named is what the set is called where its kind is any part of the owner's.
func named(own *profiles.Limited, p profiles.Part) string {
	if own.Any {
		return p.Name
	}
	return ""
}

// atLimit keeps what is used up to its last mile or day from being past it by
// rounding.
const atLimit = 1 + 1e-9

// limits are a point for each limit of a part: the nearest ends its life.
func limits(a At, life Measure) []Point {
	p, l := a.Part.Limited, a.Part.Limited.Limits
	var out []Point
	point := func(key, zone, bound string, of func(*Wear) float64, left func(Moment) float64) {
		bound = fmt.Sprintf(bound, a.Part.Sources["limits."+key].Value)
		out = append(out, Point{Measure: life, Zone: zone, New: 1, Margin: 1 - float64(p.Margin), Bound: bound, Of: of, Cap: left})
	}
	use := func(key, bound string, limit float64, of func(*Wear) float64) {
		if limit > 0 {
			point(key, strings.ReplaceAll(key, "_", " "), bound, func(w *Wear) float64 { return of(w) / (limit * atLimit) }, nil)
		}
	}
	use("distance", "its %s", float64(l.Distance), func(w *Wear) float64 { return w.Meters })
	use("circuit_hours", "its %s on circuit", float64(l.CircuitHours), func(w *Wear) float64 { return w.Seconds })
	use("circuit_days", "its %s circuit days", float64(l.CircuitDays), func(w *Wear) float64 { return w.Days })
	use("heat_cycles", "its %s heat cycles", float64(l.HeatCycles), Sessions)
	unused := func(*Wear) float64 { return 0 }
	if months := float64(l.Months); months > 0 {
		point("months", "months", "its %s months", unused, func(m Moment) float64 { return 1 - daysOld(a, m)/Month/(months*atLimit) })
	}
	if !l.Expires.IsZero() {
		point("expires", "date", "the day on its label, %s,", unused, func(m Moment) float64 { return unexpired(a, m) })
	}
	if len(out) == 0 { // a stock part that leaves them to its owner
		out = append(out, Point{Measure: life, New: 1, Margin: 1 - float64(p.Margin), Of: unused})
	}
	return out
}

// daysOld is how old, in days, a part is at the end of a leg: since it was made, where
// a week code tells that, since it was bought, or since it went on.
func daysOld(a At, m Moment) float64 {
	made := builtFor(a.Entry.Built[a.Place], m.Day) * 12 * Month
	if b := a.Entry.Bought; !b.IsZero() && !m.Day.IsZero() {
		if bought := m.Day.Sub(b).Hours() / 24; !(made > bought) { // which it is not where it is unknown
			made = bought
		}
	}
	switch {
	case math.IsNaN(made):
		return m.Age
	case a.Entry.Since.Undated:
		return made
	}
	return max(made, m.Age)
}

// unexpired is the share that is left, at the end of a leg, of the time between
// the day a part was fitted and the one on its label, on which it is still good.
// The day counts on circuits, where an inspection asks for it, and not for a
// new part, which has a label of its own.
func unexpired(a At, m Moment) float64 {
	since := a.Entry.Since
	fresh := a.Entry.Part == "" // it is yet to be bought
	if fresh || !m.Circuit && !a.Circuit || m.Day.IsZero() || since.Date.IsZero() && !since.Undated {
		return 1
	}
	whole, left := unknownAge, a.Part.Limited.Limits.Expires.AddDate(0, 0, 1).Sub(m.Day).Hours()/24
	if !since.Undated {
		whole = max(1, a.Part.Limited.Limits.Expires.Sub(since.Date).Hours()/24)
	}
	if !m.Circuit {
		left = max(left, atLimit-1)
	}
	return min(1, left/whole)
}

// counted says how what was used is known.
func counted(a At) string {
	how := "counted since it went on"
	if a.Entry.Since.Unmetered {
		how = estimated(a)
	}
	if a.Entry.Since.Undated && a.Entry.Built[a.Place] == "" && a.Entry.Bought.IsZero() && ages(a) {
		how += "; " + unknownDay
	}
	return how
}

// ages says whether time alone uses a part up.
func ages(a At) bool {
	l := a.Part.Limited.Limits
	return l.Months > 0 || !l.Expires.IsZero()
}

// undated says what is not looked at on a trip without a date.
func undated(a At) []Verdict {
	if !a.End.IsZero() || !ages(a) {
		return nil
	}
	return []Verdict{{Text: a.Place + ": the trip has no date, so how old it gets is not looked at"}}
}
