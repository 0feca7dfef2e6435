package profiles

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"sort"
	"time"

	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/parts"
	"example.com/tripwear/profiles/quantity"
)

// What makes a row doubtful. Engineering choices.
const (
	farOff       = 20_000 * 1609.344 // m beyond all that is known: a digit too many, or too few
	readingsNear = 2                 // standard deviations of two readings' difference that chance explains
	tripLonger   = 1.15              // a trip's roads may be this much longer than the odometer says
)

// likelyError is how far two readings of one level differ by chance.
func likelyError(gauge float64) float64 { return float64(readingsNear * math.Sqrt2 * gauge) }

// History is what is known of the car when a row of the logbook is checked: the
// car folder and the rows before.
type History struct {
	folder *Folder
	start  Car // as car.yaml has it, before the logbook
	rows   []logbook.Entry
	by     map[string][]int // rows by SeenKey or, of a new part, kind and place; by odometer, then as written
	trips  []int            // rows of trips, in the same order
	facts  map[logbook.Entry]bool

	rising   []int           // unconfirmed rows by day, whose odometer never goes back
	falling  []int           // the other unconfirmed rows
	furthest quantity.Length // odometer of any row, or car.yaml's
	nearest  quantity.Length // odometer of any row, or since when car.yaml has a part on
}

// History is that of the car before any row of the logbook.
func (f *Folder) History() *History {
	start := f.AsWritten()
	h := &History{folder: f, start: start, by: map[string][]int{}, facts: map[logbook.Entry]bool{}, furthest: start.Odometer, nearest: start.Odometer}
	for _, fit := range start.Fitted {
		h.nearest = min(h.nearest, fit.Since.Odometer)
	}
	return h
}

// AsWritten is the car as car.yaml has it, before the logbook.
func (f *Folder) AsWritten() Car {
	if f.asWritten != nil {
		return *f.asWritten
	}
	return f.Car
}

func (h *History) add(e logbook.Entry) {
	row := len(h.rows)
	h.rows = append(h.rows, e)
	if e.What == logbook.Trip {
		h.trips = h.put(h.trips, row)
	}
	h.facts[e.Facts()] = true
	h.furthest, h.nearest = max(h.furthest, e.Odometer), min(h.nearest, e.Odometer)
	if from, to := h.days(e.Date); !e.Confirmed && h.goesBack(e, from, to) {
		h.falling = append(h.falling, row)
	} else if !e.Confirmed {
		at := from + sort.Search(to-from, func(i int) bool { return h.rows[h.rising[from+i]].Odometer > e.Odometer })
		h.rising = slices.Insert(h.rising, at, row)
	}
	for _, key := range h.keys(e) {
		h.by[key] = h.put(h.by[key], row)
	}
}

// put adds a row to others, which stay in the order of odometers.
func (h *History) put(rows []int, row int) []int {
	return slices.Insert(rows, h.upTo(rows, h.rows[row].Odometer), row)
}

func (h *History) upTo(rows []int, odometer quantity.Length) int {
	return sort.Search(len(rows), func(i int) bool { return h.rows[rows[i]].Odometer > odometer })
}

func (h *History) keys(e logbook.Entry) []string {
	if !e.Replaces() && e.What != logbook.Fitted {
		return []string{seenKey(e)}
	}
	var out []string
	for _, at := range e.At() {
		out = append(out, "new "+string(h.folder.KindReplaced(e))+" "+at)
	}
	return out
}

// seenKey keeps readings apart, and those of a part that lies aside from those of
// the one that is on.
func seenKey(e logbook.Entry) string { return SeenKey(e.What, e.Where(), e.Zone) }

// KindReplaced is the kind of part that a row puts on.
func (f *Folder) KindReplaced(e logbook.Entry) Kind {
	if e.Text != "" {
		return f.Parts[e.Text].Kind
	}
	i := slices.IndexFunc(Kinds(), func(k KindInfo) bool { return k.Fill && slices.Contains(k.Places(), e.Place) })
	if i < 0 {
		return "" // no row: what is no fill is always named
	}
	return Kinds()[i].Kind
}

// Check says what is wrong with a row, and what is doubtful and needs the
// owner's word, by all that is known before it.
func (h *History) Check(e logbook.Entry) (wrong, doubts []logbook.Fault) {
	if wrong = h.names(e); len(wrong) > 0 {
		return wrong, nil
	}
	if h.facts[e.Facts()] {
		doubts = doubt("the row is there already: "+e.String(), "each row once")
	}
	return nil, slices.Concat(h.odometer(e), doubts, h.reading(e), h.driven(e))
}

func doubt(what, expected string) []logbook.Fault {
	return []logbook.Fault{{What: what, Expected: expected}}
}

// names checks the part or the trip that a row names.
func (h *History) names(e logbook.Entry) []logbook.Fault {
	f := h.folder
	switch {
	case e.What == logbook.Trip:
		t, ok := f.Trips[e.Text]
		if !ok {
			ids := slices.Sorted(maps.Keys(f.Trips))
			return []logbook.Fault{{What: nearest.Unknown("trip", e.Text, ids), Expected: "a file of trips/: " + nearest.OneOf(ids), Hint: "write down in trips/ what you drove, then add the row"}}
		}
		if n := t.planned(); e.Last > n {
			return []logbook.Fault{{What: fmt.Sprintf("trip %s has no leg %d", e.Text, e.Last), Expected: fmt.Sprintf("1 to %d", n), Hint: "legs are counted as the plan does, a circuit visit as a leg a day"}}
		}
	case e.What == logbook.Packed, e.What == logbook.Unpacked:
		if _, ok := f.Parts[e.Text]; !ok {
			ids := slices.Sorted(maps.Keys(f.Parts))
			return []logbook.Fault{{What: nearest.Unknown("part", e.Text, ids), Expected: "the id of the part that is in the trunk or is not", Hint: "such as log add packed pads-front; tripwear parts lists the ids"}}
		}
	case (e.Replaces() || e.What == logbook.Fitted) && e.Text != "":
		if wrong := f.unfit(e.Text); len(wrong) > 0 {
			return wrong
		}
		part := f.Parts[e.Text]
		allowed := part.Kind.Info().Places()
		for _, at := range e.At() {
			if !slices.Contains(allowed, at) || e.What == logbook.OilChange && part.Kind != Oil {
				return []logbook.Fault{{What: fmt.Sprintf("%s of kind %s cannot be at %s", part.Describe(), part.Kind, e.Place), Expected: nearest.OneOf(allowed)}}
			}
		}
		if e.What == logbook.Fitted {
			return h.swapped(e, part)
		}
		if wrong := h.onlyAside(e, part); wrong != nil {
			return wrong
		}
		return h.pair(e, part)
	case !e.Replaces():
		return h.bare(e)
	}
	return nil
}

// bare refuses a reading of what the car does not have.
func (h *History) bare(e logbook.Entry) []logbook.Fault {
	kind, _, ok := parts.ReadingOf(e.What)
	if ok && e.Part != "" {
		return h.bench(kind, e)
	}
	if !ok || kind.Needed || e.Place == "" {
		return nil
	}
	if part, _ := h.on(kind.Kind, e.Place, e.Odometer); part != "" {
		return nil
	}
	return []logbook.Fault{{What: fmt.Sprintf("no %s fitted at %s", kind.Kind, e.Place), Expected: "a reading of what is on the car", Hint: "list it under fitted in car.yaml, or log the part that went on first, with a row replaced"}}
}

// planned is how many legs a plan makes of the trip.
func (t Trip) planned() int {
	n := 0
	for _, l := range t.Legs {
		n += max(1, l.Days)
	}
	return n
}

// driven is the first and the last leg that a row says were driven.
func (t Trip) driven(e logbook.Entry) (first, last int) {
	if e.First == 0 {
		return 1, t.planned()
	}
	return e.First, e.Last
}

// roads is the distance of the legs from first to last.
func (t Trip) roads(first, last int) quantity.Length {
	sum, n := quantity.Length(0), 0
	for _, l := range t.Legs {
		for range max(1, l.Days) {
			if n++; first <= n && n <= last {
				sum += l.Distance
			}
		}
	}
	return sum
}

// pair refuses another part on one wheel only of an axle that takes pairs.
func (h *History) pair(e logbook.Entry, part Part) []logbook.Fault {
	for _, s := range part.Kind.Info().Sets {
		if len(e.At()) != 1 || !slices.Contains(s.At, e.Place) {
			continue
		}
		for _, other := range s.At {
			if on, _ := h.on(part.Kind, other, e.Odometer); other != e.Place && on != "" && on != part.ID {
				return []logbook.Fault{{What: fmt.Sprintf("%s at %s alone, beside %s at %s", part.Describe(), e.Place, on, other), Expected: "the same part on both wheels of an axle", Hint: "write front or rear as the place where both were replaced"}}
			}
		}
	}
	return nil
}

// on is the part at a place at an odometer, and since when.
func (h *History) on(k Kind, at string, odometer quantity.Length) (part string, since quantity.Length) {
	if fit := h.fit(k, at); fit != nil {
		part, since = fit.Part, fit.Since.Odometer
	}
	rows := h.by["new "+string(k)+" "+at]
	rows = rows[:h.upTo(rows, odometer)]
	if len(rows) == 0 || h.rows[rows[len(rows)-1]].Odometer < since {
		return part, since
	}
	last := h.rows[rows[len(rows)-1]]
	return last.Text, last.Odometer
}

// fit is what car.yaml has at a place; nil where it has nothing.
func (h *History) fit(k Kind, at string) *Fitted {
	for i := range h.start.Fitted {
		if fit := &h.start.Fitted[i]; h.folder.Parts[fit.Part].Kind == k && slices.Contains(fit.At, at) {
			return fit
		}
	}
	return nil
}

// odometer doubts a row whose odometer goes back, jumps or drops.
func (h *History) odometer(e logbook.Entry) []logbook.Fault {
	rows := h.falling
	if from, to := h.days(e.Date); h.goesBack(e, from, to) {
		rows = slices.Sorted(slices.Values(slices.Concat(h.rising, h.falling))) // the first is named
	}
	for _, i := range rows {
		if r := h.rows[i]; against(r, e) {
			return doubt(fmt.Sprintf("the odometer goes back: %s on %s", e.Mark, e.Date.Format(time.DateOnly)),
				fmt.Sprintf("a figure that goes with %s on %s", r.Mark, r.Date.Format(time.DateOnly)))
		}
	}
	switch {
	case e.Odometer < h.nearest-farOff:
		return doubt("the odometer drops to "+e.Mark, "at most 20000 mi less than known so far")
	case e.Odometer > h.furthest+farOff:
		return doubt("the odometer jumps to "+e.Mark, "at most 20000 mi more than known so far")
	}
	return nil
}

// days is from where to where rising has the rows of a day.
func (h *History) days(day time.Time) (from, to int) {
	from = sort.Search(len(h.rising), func(i int) bool { return !h.rows[h.rising[i]].Date.Before(day) })
	to = sort.Search(len(h.rising), func(i int) bool { return h.rows[h.rising[i]].Date.After(day) })
	return from, to
}

// goesBack says whether a row goes against the last of rising before its day or
// the first after it.
func (h *History) goesBack(e logbook.Entry, from, to int) bool {
	return from > 0 && against(h.rows[h.rising[from-1]], e) || to < len(h.rising) && against(h.rows[h.rising[to]], e)
}

// against says whether one of two rows is later by its day and earlier by its odometer.
func against(a, b logbook.Entry) bool {
	return a.Date.Before(b.Date) && a.Odometer > b.Odometer || a.Date.After(b.Date) && a.Odometer < b.Odometer
}

// reading doubts a level that is more than new, or more than it was.
func (h *History) reading(e logbook.Entry) []logbook.Fault {
	kind, r, ok := parts.ReadingOf(e.What)
	if !ok || r.New == nil {
		return nil
	}
	gauge := float64(r.Gauge(h.start.Gauge))
	id, since := h.on(kind.Kind, e.Place, e.Odometer)
	if e.Part != "" {
		id, since = e.Part, 0
	}
	part := h.folder.Parts[id]
	unused := r.New(&part)
	name := e.Subject()
	if e.Value > float64(unused)+gauge {
		return doubt(fmt.Sprintf("%s is %s, more than new", name, e.Written), "at most "+both(unused))
	}
	level, ok := h.before(e, kind.Kind, since)
	if ok && e.Value > level+likelyError(gauge) {
		return doubt(fmt.Sprintf("%s grows to %s", name, e.Written), "at most the "+both(quantity.Length(level))+" read before, unless it was replaced")
	}
	return nil
}

func both(v quantity.Length) string {
	return quantity.Thickness[quantity.Metric].Text(float64(v)) + " (" + quantity.Tread[quantity.US].Text(float64(v)) + ")"
}

// before is the last reading of the same thing on the same part.
func (h *History) before(e logbook.Entry, k Kind, since quantity.Length) (level float64, ok bool) {
	at := quantity.Length(-1)
	if h.start.Written <= e.Odometer && h.start.Written >= since && e.Part == "" {
		if v, known := h.startReading(e, k, since); known {
			level, at, ok = v, h.start.Written, true
		}
	}
	put := -1 // the row that put the part on: what was read before it there is of the part before
	if on := h.by["new "+string(k)+" "+e.Place]; len(on) > 0 && e.Part == "" {
		put = on[max(0, h.upTo(on, e.Odometer)-1)]
	}
	rows := h.by[seenKey(e)]
	for i := h.upTo(rows, e.Odometer) - 1; i >= 0; i-- {
		r := &h.rows[rows[i]]
		if r.Odometer < max(since, at) || r.Odometer == since && rows[i] < put {
			break
		}
		if !r.Date.After(e.Date) {
			return r.Value, true
		}
	}
	return level, ok
}

// startReading is car.yaml's reading, if it is of the part fitted at since.
func (h *History) startReading(e logbook.Entry, k Kind, since quantity.Length) (float64, bool) {
	_, r, _ := parts.ReadingOf(e.What)
	for i := range h.start.Fitted {
		fit := &h.start.Fitted[i]
		if h.folder.Parts[fit.Part].Kind != k || !slices.Contains(fit.At, e.Place) || fit.Since.Odometer != since {
			continue
		}
		switch levels := fit.Value(r.Key).Interface().(type) {
		case map[string][]quantity.Length:
			if d := levels[e.Place]; len(d) == len(logbook.Zones) {
				return float64(d[slices.Index(logbook.Zones, e.Zone)]), true
			}
		case map[string]quantity.Length:
			v, ok := levels[e.Place]
			return float64(v), ok
		}
	}
	return 0, false
}

// driven doubts a trip whose roads are longer than the odometer allows since
// the trip before.
func (h *History) driven(e logbook.Entry) []logbook.Fault {
	if e.What != logbook.Trip {
		return nil
	}
	trip := h.folder.Trips[e.Text]
	roads := trip.roads(trip.driven(e))
	n := h.upTo(h.trips, e.Odometer)
	if n == 0 {
		return nil
	}
	if last := h.rows[h.trips[n-1]]; roads > tripLonger*(e.Odometer-last.Odometer) {
		return doubt(fmt.Sprintf("trip %s has %s of road, more than was driven since the trip before, at %s", e.Written, quantity.Distance[quantity.US].Text(float64(roads)), last.Mark),
			"the odometer at the end of the trip, and only the legs driven")
	}
	return nil
}
