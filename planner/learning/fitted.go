package learning

import (
	"math"
	"slices"

	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// fittedPart is one part at a place: its stints there, the first one to the last.
type fittedPart struct {
	profiles.Stint
	stints []profiles.Stint
	named  []int // rows that name a part, of whichever
}

// fittedParts lists the parts of a kind that were at a place, in order.
func fittedParts(f *profiles.Folder, k profiles.Kind, place string) []fittedPart {
	var out []fittedPart
	for _, s := range f.Stints(k, place) {
		i := slices.IndexFunc(out, func(l fittedPart) bool { return l.Life == s.Life })
		if i < 0 {
			l := fittedPart{Stint: s, stints: []profiles.Stint{s}}
			if s.Back && !s.Logged { // it lay aside first
				l.From = float64(s.Entry.Since.Odometer)
			}
			out = append(out, l)
			continue
		}
		l := &out[i]
		l.To, l.Last, l.Kept = s.To, s.Last, s.Kept
		l.stints = append(l.stints, s)
	}
	for i := range f.Car.Aside { // what no row ever put on: read on the bench, driven on by the trips that say so
		e := &f.Car.Aside[i]
		never := !slices.ContainsFunc(out, func(l fittedPart) bool { return l.Part == e.Part })
		if never && f.Parts[e.Part].Kind == k && slices.Contains(e.At, place) {
			out = append(out, fittedPart{Stint: profiles.Stint{Part: e.Part, From: float64(e.Since.Odometer), To: math.Inf(1), Kept: true, Entry: e}})
		}
	}
	var named []int
	for row, e := range f.Log {
		if e.Part != "" {
			named = append(named, row)
		}
	}
	for i := range out {
		out[i].named = named
	}
	return out
}

// rows are those of the log that are of the part.
func (l fittedPart) rows(f *profiles.Folder) []logbook.Entry {
	var rows []int
	for _, s := range l.stints {
		for row := s.First; row < s.Last; row++ {
			if f.Log[row].Part == "" {
				rows = append(rows, row)
			}
		}
	}
	for _, row := range l.named {
		if f.Log[row].Part == l.Part {
			rows = append(rows, row)
		}
	}
	slices.Sort(rows)
	var out []logbook.Entry
	for _, row := range slices.Compact(rows) {
		out = append(out, f.Log[row])
	}
	return out
}

// lastFix is the odometer of the last fix of a kind of part at a place: what
// came before says nothing of what follows. 0 where there is none.
func lastFix(f *profiles.Folder, k profiles.Kind, place string) float64 {
	at := 0.0
	for _, e := range f.Log {
		if e.What == logbook.Repair && e.Text == string(k) && slices.Contains(e.At(), place) {
			at = math.Max(at, float64(e.Odometer))
		}
	}
	return at
}

// accounted says whether all of a part's driving is known: the logbook put it
// on, or has as many circuit days up to car.yaml's odometer as car.yaml gives the
// part. That neither tells of any says so only of a logbook that was kept then.
func (l fittedPart) accounted(f *profiles.Folder, p *trip.Past, on trip.Spans) bool {
	kept := len(f.Log) > 0 && float64(f.Log[0].Odometer) <= l.From
	return l.Logged || !l.Entry.Since.Unmetered && (kept || l.Entry.CircuitDays > 0) &&
		math.Abs(p.Days(on, l.From, float64(f.AsWritten().Odometer))-float64(l.Entry.CircuitDays)) < 0.5
}
