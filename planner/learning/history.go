package learning

import (
	"cmp"
	"math"
	"slices"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/reliability"
)

// reading is one level that was measured, or that of a new part.
type reading struct {
	axle     int // 0 front, 1 rear
	what     logbook.What
	place    string
	zone     string
	key      int // of the set and part: its rates
	start    int // index of the level from which its wear is followed
	odometer float64
	date     time.Time // zero where it is of car.yaml
	level    float64
	gauge    float64
	offset   int     // how far off its gauge reads: a start's index and 1
	isNew    bool    // a new part, not measured
	from     float64 // odometer of its start
	taken    []reliability.Taken
	of       func(*kind.Wear) float64
}

// axlePart is a part on an axle, whose rates are its own.
type axlePart struct {
	axle int
	part string
}

// history is what the logbook says of one kind of part: its readings, and the
// factors of wear that they share.
type history struct {
	kind     *kind.Kind
	way      *trip.Journey
	past     *trip.Past
	dial     quantity.System // of the odometer
	zones    []string        // of a wheel: "" where it has one point
	spread   spreads
	slope    float64 // the middle one by which a spread of pace multiplies what visits take, ln
	keys     []axlePart
	beliefs  []belief // by key
	current  []current
	starts   []reliability.Start
	readings []reading
	ofStart  map[int][]int // readings by their start
	unheard  int           // readings before those
}

// current is a set that the car has, on it or aside, and its key.
type current struct {
	set       string
	axle, key int
}

// Engineering choices.
const (
	// unknownStartSD is the spread of an unknown start, m: far more than any depth.
	unknownStartSD = 0.05
	// mostVisits is over how many circuit visits wear is followed from one start;
	// the next start is the reading before, which bounds the work. More than
	// wear parts last by far.
	mostVisits = 20
	// mostReadings is how many readings of a kind teach, the latest: so many as a
	// set of tires gives in fifty checks.
	mostReadings = 600
	// newPartError is the share of a reading's error that a new part's depth has.
	newPartError = 0.5
	// leastSpread stands for a spread of 0, which would divide by it.
	leastSpread = 1e-6
)

// newHistory collects the readings of a kind of part.
func newHistory(w *trip.Journey, m trip.Machine, k *kind.Kind) (*history, error) {
	first := w.At(k, k.ID.Info().Places()[0])
	h := &history{kind: k, way: w, past: w.Past, dial: dialOf(w.Folder.Log), spread: split(k.Spreads(first))}
	for _, p := range k.Points(first) {
		h.zones = append(h.zones, p.Zone)
	}
	pasts := map[axlePart]*trip.Past{}
	for axle, t := range k.ID.Info().Sets {
		for _, place := range t.At {
			fix := lastFix(w.Folder, k.ID, place)
			for _, l := range fittedParts(w.Folder, k.ID, place) {
				key := h.keyOf(axle, l.Part)
				driven, err := h.pastWith(m, key, t, l.Part, pasts)
				if err != nil {
					return nil, err
				}
				h.addPart(l, fix, axle, key, place, driven)
			}
		}
		h.current = append(h.current, current{t.ID, axle, h.keyOf(axle, w.On[k.ID][t.At[0]].Part.ID)})
		for _, part := range w.Folder.Asides(t) {
			h.current = append(h.current, current{projection.AsideID(t.ID, part), axle, h.keyOf(axle, part)})
		}
	}
	for key := range h.keys {
		h.beliefs = append(h.beliefs, h.believed(key))
	}
	slices.SortStableFunc(h.readings, func(a, b reading) int { return cmp.Compare(a.odometer, b.odometer) })
	h.unheard = max(0, len(h.readings)-mostReadings)
	h.readings = h.readings[h.unheard:]
	h.slope, h.ofStart = h.middleSlope(), map[int][]int{}
	for i, r := range h.readings {
		h.ofStart[r.start] = append(h.ofStart[r.start], i)
	}
	return h, nil
}

func (h *history) keyOf(axle int, part string) int {
	k := axlePart{axle, part}
	if i := slices.Index(h.keys, k); i >= 0 {
		return i
	}
	h.keys = append(h.keys, k)
	return len(h.keys) - 1
}

func (h *history) axleOf(key int) int { return h.keys[key].axle }

// pastWith is the past with a part fitted that may no longer be on the car.
func (h *history) pastWith(m trip.Machine, key int, t profiles.Set, part string, pasts map[axlePart]*trip.Past) (*trip.Past, error) {
	on := h.way.On[h.kind.ID][t.At[0]].Part.ID
	if part == on || slices.Contains(h.way.Folder.Asides(t), part) {
		return h.way.With(t.ID, part).Past, nil
	}
	if p, ok := pasts[h.keys[key]]; ok {
		return p, nil
	}
	f := *h.way.Folder
	f.Car.Fitted = slices.Clone(f.Car.Fitted)
	for i, e := range f.Car.Fitted {
		if e.Part == on {
			f.Car.Fitted[i].Part = part
		}
	}
	p, err := trip.NewPast(m.With(&f), &f, map[string]trip.Stages{})
	pasts[h.keys[key]] = p
	return p, err
}

// addPart adds the readings of one part at one place since the last fix there.
func (h *history) addPart(l fittedPart, fix float64, axle, key int, place string, p *trip.Past) {
	f := h.way.Folder
	for _, kp := range h.kind.Points(kind.At{Folder: f, Part: f.Parts[l.Part], Entry: l.Entry, Place: place}) {
		h.addPoint(l, fix, reading{axle: axle, key: key, what: kp.What, place: place, zone: kp.Zone, gauge: kp.Gauge, of: kp.Of}, kp, p)
	}
}

// setID is the id of the set that a reading is of: one that is aside now, or the
// one on its axle.
func (h *history) setID(r reading) string {
	for _, c := range h.current {
		if c.axle == r.axle && c.key == r.key {
			return c.set
		}
	}
	return h.kind.ID.Info().Sets[r.axle].ID
}

// addPoint adds the readings of one point of one part.
func (h *history) addPoint(l fittedPart, fix float64, like reading, kp kind.Point, p *trip.Past) {
	f := h.way.Folder
	on := p.On(kind.At{Part: f.Parts[l.Part], Place: like.place})
	var out []reading
	if len(h.starts) == 0 {
		h.starts = append(h.starts, reliability.Start{SD: like.gauge}) // as far off as a reading may be
	}
	like.offset = 1
	add := func(odometer, level float64, date time.Time) *reading {
		r := like
		r.odometer, r.level, r.date = odometer, level, date
		out = append(out, r)
		return &out[len(out)-1]
	}
	written := float64(f.AsWritten().Odometer)
	if l.From >= fix && l.accounted(f, p, on) {
		r := add(l.From, kp.New, time.Time{})
		r.isNew, r.offset, r.gauge = true, 0, newPartError*like.gauge
	}
	own, given := l.carReading(kp, written)
	for _, e := range l.rows(f) {
		if e.What != like.what || e.Place != like.place || e.Zone != like.zone || float64(e.Odometer) < max(fix, l.From) {
			continue
		}
		if float64(e.Odometer) == written {
			given = false // it is in the log
		}
		if given && float64(e.Odometer) > written {
			add(written, own, time.Time{})
			given = false
		}
		add(float64(e.Odometer), e.Value, e.Date)
	}
	if given && written >= max(fix, l.From) && (written < l.To || l.Kept) {
		add(written, own, time.Time{})
	}
	if len(out) == 0 {
		return
	}
	first := &out[0]
	s := reliability.Start{Mean: first.level, SD: unknownStartSD}
	if first.isNew {
		s.SD = first.gauge
	}
	h.starts = append(h.starts, s)
	from := *first
	for i := range out {
		r := &out[i]
		r.taken = h.taken(like, kp.Of, p, on, from.odometer, r.odometer)
		if i > 0 && len(r.taken) > mostVisits && out[i-1].odometer > from.odometer {
			from = out[i-1]
			h.starts = append(h.starts, reliability.Start{Mean: from.level, SD: math.Hypot(from.gauge, h.starts[0].SD)})
			r.taken = h.taken(like, kp.Of, p, on, from.odometer, r.odometer)
		}
		r.from, r.start = from.odometer, len(h.starts)-1
	}
	if first.isNew {
		out = out[1:] // it is the start
	}
	h.readings = append(h.readings, out...)
}

// carReading is car.yaml's reading of a point of a part that is fitted there.
func (l fittedPart) carReading(kp kind.Point, written float64) (float64, bool) {
	if l.Logged || written < l.From || kp.Read == nil {
		return 0, false
	}
	return *kp.Read, true
}
