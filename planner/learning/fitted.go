package learning

import (
	"math"
	"slices"

	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// fittedPart is one part's time at a place.
type fittedPart struct {
	part   string
	from   float64 // m of odometer, when it went on
	to     float64 // when it came off; +Inf for the one on the car
	first  int     // rows of the log that are of it: from the first up to the last
	last   int
	logged bool             // the logbook put it on; otherwise it is car.yaml's
	entry  *profiles.Fitted // car.yaml's; empty where the logbook put it on
}

// fittedParts lists the parts of a kind that were at a place, in order.
func fittedParts(f *profiles.Folder, k profiles.Kind, place string) []fittedPart {
	written := f.AsWritten()
	i := slices.IndexFunc(written.Fitted, func(e profiles.Fitted) bool {
		return f.Parts[e.Part].Kind == k && slices.Contains(e.At, place)
	})
	if i < 0 {
		return nil
	}
	own := fittedPart{part: written.Fitted[i].Part, from: float64(written.Fitted[i].Since.Odometer), entry: &written.Fitted[i]}
	var all []fittedPart
	placed := false
	putOwn := func(row int) {
		own.first = row
		all, placed = append(all, own), true
	}
	for row, e := range f.Log {
		at := float64(e.Odometer)
		if !placed && at > own.from {
			putOwn(row)
		}
		if !e.Replaces() || !slices.Contains(e.At(), place) || f.KindReplaced(e) != k {
			continue
		}
		if !placed && at == own.from {
			continue // the replacement that car.yaml has
		}
		l := fittedPart{part: e.Text, from: at, first: row + 1, logged: true, entry: &profiles.Fitted{}}
		if l.part == "" {
			l.part = own.part
		}
		all = append(all, l)
	}
	if !placed {
		putOwn(len(f.Log))
	}
	for i := range all {
		all[i].to, all[i].last = math.Inf(1), len(f.Log)
		if i+1 < len(all) {
			all[i].to, all[i].last = all[i+1].from, all[i+1].first
			if all[i+1].logged {
				all[i].last-- // without the row of the replacement itself
			}
		}
	}
	return all
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
func (l fittedPart) accounted(f *profiles.Folder, p *trip.Past) bool {
	kept := len(f.Log) > 0 && float64(f.Log[0].Odometer) <= l.from
	return l.logged || !l.entry.Since.Unmetered && (kept || l.entry.CircuitDays > 0) &&
		math.Abs(p.Days(l.from, float64(f.AsWritten().Odometer))-float64(l.entry.CircuitDays)) < 0.5
}
