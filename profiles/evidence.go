package profiles

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/parts"
	"example.com/tripwear/profiles/quantity"
)

// Doubts are the rows about a kind of part at a place that are doubted or not
// used, each with its reason.
func (f *Folder) Doubts(k Kind, place string) []string {
	var out []string
	for _, e := range slices.Concat(f.Evidence, f.carDoubted) {
		if kind, ok := KindRead(e.What); ok && kind == k && e.Place == place && (e.Effect == Doubted || e.Effect == NotUsed) {
			said := e.Entry.String()
			if e.Line == 0 {
				said = fmt.Sprintf("%s at %s in car.yaml", e.What, e.Place)
			}
			out = append(out, said+": "+e.Why)
		}
	}
	return out
}

// weigh decides what stands of everything that was read or found at a place.
// A worse reading or finding stands at once; a better one than could be is
// doubted until a part is replaced or, where that is a cure, repaired.
func (f *Folder) weigh() {
	f.Evidence, f.carDoubted = make([]Evidence, len(f.Log)), nil
	rows := map[string][]int{}
	var keys []string
	for i, e := range f.Log {
		f.Evidence[i] = Evidence{Entry: e, Effect: Counts}
		_, r, ok := parts.ReadingOf(e.What)
		if !ok || r.Key == "" {
			continue
		}
		if known := r.Words(); len(known) > 0 && rank(e) < 0 {
			f.Evidence[i].Effect, f.Evidence[i].Why = Noted, "in words of its own: a plan hears "+nearest.OneOf(known)
			continue
		}
		key := SeenKey(e.What, e.Place, e.Zone)
		if rows[key] == nil {
			keys = append(keys, key)
		}
		rows[key] = append(rows[key], i)
	}
	for _, key := range keys {
		first := f.Log[rows[key][0]]
		k, r, _ := parts.ReadingOf(first.What)
		held := f.held(k.Kind, first.Place) // none for an inspection of no one place
		var stints []Stint
		if len(held) > 1 {
			stints = f.Stints(k.Kind, first.Place)
		}
		for _, on := range held {
			w := weighing{folder: f, on: on, kind: k.Kind, reading: r, place: first.Place, stints: stints}
			w.gather(rows[key])
			w.settle()
		}
	}
}

// weighing is one thing that is read or found at one place, on the part there.
type weighing struct {
	folder  *Folder
	on      *Fitted
	kind    Kind
	reading Reading
	place   string
	stints  []Stint    // at that place, where parts swap
	seen    []sighting // by odometer
}

// sighting is what was read or found once.
type sighting struct {
	row   int // of the log; -1 is car.yaml's
	at    quantity.Length
	date  time.Time
	level float64
	rank  int // of a finding, from good to bad; -1 is none of the words
}

// gather lists the sightings of the part that is on the car now.
func (w *weighing) gather(rows []int) {
	e := w.folder.Log[rows[0]]
	if s, ok := w.given(e); ok && !w.on.Logged {
		w.seen = append(w.seen, s)
	}
	on := w.fittedBy()
	for _, i := range rows {
		e := w.folder.Log[i]
		if ofAnother(e, i, w.stints, w.on.Part) {
			continue
		}
		s := sighting{row: i, at: e.Odometer, date: e.Date, level: e.Value, rank: rank(e)}
		since := w.on.Since
		switch {
		case e.Odometer == since.Odometer && i < on:
			w.note(i, Counts, "of the part before")
			continue
		case e.Odometer >= since.Odometer:
		case !since.Date.IsZero() && e.Date.After(since.Date):
			s.at = since.Odometer
			w.note(i, Doubted, fmt.Sprintf("its odometer lies before %s, when the part went on, its date does not: km for mi? It counts as if read then", quantity.Distance[quantity.US].Text(float64(since.Odometer))))
		default:
			w.note(i, Counts, "of the part before")
			continue
		}
		w.seen = append(w.seen, s)
	}
	slices.SortStableFunc(w.seen, func(a, b sighting) int { return cmp.Compare(a.at, b.at) })
}

// fittedBy is the row that put the part on; -1 where car.yaml did.
func (w *weighing) fittedBy() int {
	for i, e := range slices.Backward(w.folder.Log) {
		if w.on.Logged && e.Replaces() && slices.Contains(e.At(), w.place) && w.folder.KindReplaced(e) == w.kind {
			return i
		}
	}
	return -1
}

// given is what car.yaml says itself, which is of its own odometer.
func (w *weighing) given(e logbook.Entry) (sighting, bool) {
	s := sighting{row: -1, at: w.folder.Car.Written, rank: -1}
	if !w.on.Has(e) {
		return s, false
	}
	switch v := w.on.Value(w.reading.Key).Addr().Interface().(type) {
	case *map[string][]quantity.Length:
		depths := (*v)[e.Place]
		if len(depths) != len(logbook.Zones) {
			return s, false
		}
		s.level = float64(depths[slices.Index(logbook.Zones, e.Zone)])
	case *map[string]quantity.Length:
		s.level = float64((*v)[e.Place])
	case *map[string]logbook.Finding:
		s.rank = slices.Index(logbook.Findings(e.What), (*v)[e.Place])
	case *logbook.Finding:
		s.rank = slices.Index(logbook.Findings(e.What), *v)
	}
	return s, true
}

// rank is how bad a finding is, 0 the best; -1 where it is none.
func rank(e logbook.Entry) int {
	return slices.Index(logbook.Findings(e.What), logbook.Finding(e.Text))
}

// settle decides which sighting stands and puts it on the car.
func (w *weighing) settle() {
	if len(w.seen) == 0 {
		return
	}
	stands := w.seen[0]
	for i, s := range w.seen[1:] {
		why := w.tooGood(stands, s)
		switch {
		case why == "":
			if s.row < 0 {
				for _, before := range w.seen[:i+1] {
					w.note(before.row, NotUsed, "car.yaml has a reading of later miles, at "+quantity.Distance[quantity.US].Text(float64(s.at)))
				}
			}
			stands = s
		case s.row >= 0:
			w.note(s.row, Doubted, why)
		default:
			w.folder.carDoubted = append(w.folder.carDoubted, Evidence{logbook.Entry{What: w.reading.What, Place: w.place, Mark: "car.yaml"}, Doubted, why})
		}
	}
	if stands.row >= 0 {
		e := w.folder.Log[stands.row]
		e.Odometer = stands.at
		w.folder.read(w.on, e, w.reading)
	}
}

// tooGood says why a sighting cannot be better than the one that stands; ""
// where it is not, or may be.
func (w *weighing) tooGood(stands, s sighting) string {
	when := "in car.yaml"
	if stands.row >= 0 {
		when = fmt.Sprintf("on %s (row %d)", stands.date.Format("2 Jan 2006"), w.folder.Log[stands.row].Number)
	}
	if w.reading.New != nil {
		if s.level <= stands.level+likelyError(float64(w.reading.Gauge(w.folder.Car.Gauge))) {
			return ""
		}
		return fmt.Sprintf("nothing grows: %s was read %s. Until it is read again, replaced or taken back (tripwear log undo), the plan goes from the lower one", both(quantity.Length(stands.level)), when)
	}
	if stands.rank < 0 || s.rank < 0 || s.rank >= stands.rank {
		return ""
	}
	bad := logbook.Findings(w.reading.What)[stands.rank]
	if bad.Mends() && w.folder.repairedBetween(w.kind, w.place, stands, s) {
		return ""
	}
	return fmt.Sprintf("it does not lift %q, found %s: replace the part%s, or take that row back (tripwear log undo)", bad, when, map[bool]string{true: ", or write the repair that came before this"}[bad.Mends()])
}

// repairedBetween says whether a repair of the kind lies between two sightings.
func (f *Folder) repairedBetween(k Kind, place string, from, to sighting) bool {
	return slices.ContainsFunc(f.Log, func(e logbook.Entry) bool {
		return e.Repairs(string(k), place) && e.Odometer >= from.at && e.Odometer <= to.at && !e.Date.Before(from.date)
	})
}

// RepairedSince is the last repair of a kind at a place on the part that is
// there now; false where there is none.
func (f *Folder) RepairedSince(k Kind, place string) (logbook.Entry, bool) {
	i := f.holder(k, place)
	for _, e := range slices.Backward(f.Log) {
		if i >= 0 && e.Repairs(string(k), place) && e.Odometer >= f.Car.Fitted[i].Since.Odometer {
			return e, true
		}
	}
	return logbook.Entry{}, false
}

// Found says whether the logbook has such a row of a part at a place since it
// went on.
func (f *Folder) Found(on *Fitted, place string, such func(logbook.Entry) bool) bool {
	return slices.ContainsFunc(f.Log, func(e logbook.Entry) bool {
		return e.Place == place && e.IsOf(on.Part) && e.Odometer >= on.Since.Odometer && such(e)
	})
}

func (w *weighing) note(row int, effect Effect, why string) {
	if e := &w.folder.Evidence[row]; e.Effect != Doubted { // the first doubt is the plainest
		e.Effect, e.Why = effect, why
	}
}
