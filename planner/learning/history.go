package learning

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles/logbook"
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
	isNew    bool    // a new part, not measured
	from     float64 // odometer of its start
	taken    []reliability.Taken
}

// history is what the logbook says of one kind of part: its readings, and the
// factors of wear that they share.
type history struct {
	kind     *kind.Kind
	way      *trip.Journey
	past     *trip.Past
	zones    []string // of a wheel: "" where it has one point
	road     float64  // spreads of the kind
	circuit  float64
	summary  float64
	keys     []string // axle and part
	current  []int    // the key of what is on each axle
	starts   []reliability.Start
	readings []reading
}

// Engineering choices.
const (
	// sharedVariance is the share of the variance of a set's rates that the sets
	// of its kind on a car have in common: the driver, the roads, the circuits.
	sharedVariance = 0.5
	// pointSpread is how differently a wheel's zones wear from what the model
	// says, at their set's own rates, sd of ln.
	pointSpread = 0.10
	// unknownStartSD is the spread of an unknown start, m: far more than any depth.
	unknownStartSD = 0.05
	// mostVisits is over how many circuit visits wear is followed from one start;
	// the next start is the reading before, which bounds the work. More than
	// wear parts last by far.
	mostVisits = 40
	// newPartError is the share of a reading's error that a new part's depth has.
	newPartError = 0.5
	// leastSpread stands for a spread of 0, which would divide by it.
	leastSpread = 1e-6
)

// newHistory collects the readings of a kind of part.
func newHistory(w *trip.Journey, m trip.Machine, k *kind.Kind) (*history, error) {
	first := w.At(k, k.ID.Info().Places()[0])
	spread := k.Spreads(first)
	h := &history{kind: k, way: w, past: w.Past, road: spread.Road, circuit: spread.Circuit, summary: spread.Summary}
	for _, p := range k.Points(first) {
		h.zones = append(h.zones, p.Zone)
	}
	pasts := map[string]*trip.Past{}
	for axle, t := range k.ID.Info().Sets {
		for _, place := range t.At {
			fix := lastFix(w.Folder, k.ID, place)
			for _, l := range fittedParts(w.Folder, k.ID, place) {
				key := h.keyOf(axle, l.part)
				driven, err := h.pastWith(m, key, t.At[0], l.part, pasts)
				if err != nil {
					return nil, err
				}
				h.addPart(l, fix, axle, key, place, driven)
			}
		}
		h.current = append(h.current, h.keyOf(axle, w.On[k.ID][t.At[0]].Part.ID))
	}
	slices.SortStableFunc(h.readings, func(a, b reading) int { return cmp.Compare(a.odometer, b.odometer) })
	return h, nil
}

func (h *history) keyOf(axle int, part string) int {
	name := fmt.Sprintf("%d %s", axle, part)
	if i := slices.Index(h.keys, name); i >= 0 {
		return i
	}
	h.keys = append(h.keys, name)
	return len(h.keys) - 1
}

// pastWith is the past with a part fitted that may no longer be on the car.
func (h *history) pastWith(m trip.Machine, key int, place, part string, pasts map[string]*trip.Past) (*trip.Past, error) {
	on := h.way.On[h.kind.ID][place].Part.ID
	if part == on {
		return h.past, nil
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
	for _, kp := range h.kind.Points(kind.At{Folder: f, Part: f.Parts[l.part], Entry: l.entry, Place: place}) {
		h.addPoint(l, fix, reading{axle: axle, key: key, what: kp.What, place: place, zone: kp.Zone, gauge: kp.Gauge}, kp, p)
	}
}

// setID is the id of the set that a reading is of.
func (h *history) setID(r reading) string { return h.kind.ID.Info().Sets[r.axle].ID }

// addPoint adds the readings of one point of one part.
func (h *history) addPoint(l fittedPart, fix float64, like reading, kp kind.Point, p *trip.Past) {
	f := h.way.Folder
	var out []reading
	add := func(odometer, level float64, date time.Time) *reading {
		r := like
		r.odometer, r.level, r.date = odometer, level, date
		out = append(out, r)
		return &out[len(out)-1]
	}
	written := float64(f.AsWritten().Odometer)
	if l.from >= fix && l.accounted(f, p) {
		r := add(l.from, kp.New, time.Time{})
		r.isNew, r.gauge = true, newPartError*like.gauge
	}
	own, given := l.carReading(kp, written)
	for _, e := range f.Log[l.first:l.last] {
		if e.What != like.what || e.Place != like.place || e.Zone != like.zone || float64(e.Odometer) < max(fix, l.from) {
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
	if given && written >= max(fix, l.from) && written < l.to {
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
		r.taken = h.taken(like, kp.Of, p, from.odometer, r.odometer)
		if i > 0 && len(r.taken) > mostVisits && out[i-1].odometer > from.odometer {
			from = out[i-1]
			h.starts = append(h.starts, reliability.Start{Mean: from.level, SD: from.gauge})
			r.taken = h.taken(like, kp.Of, p, from.odometer, r.odometer)
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
	if l.logged || written < l.from || kp.Read == nil {
		return 0, false
	}
	return *kp.Read, true
}

// Factors come in a fixed order: the kind's road and circuit, the visits'
// paces, the circuits known by their summary alone, and for every set and part
// its road, its circuit, and its points.
func (h *history) ofKey(key int) int {
	return 2 + h.past.Visits + len(h.past.Circuits) + (2+2*len(h.zones))*key
}

// ofPoint is the factor of one point, the same on roads and circuits.
func (h *history) ofPoint(r reading) reliability.Power {
	wheel := 0
	if r.place == h.kind.ID.Info().Sets[r.axle].At[1] {
		wheel = 1
	}
	return reliability.Power{Factor: h.ofKey(r.key) + 2 + wheel*len(h.zones) + slices.Index(h.zones, r.zone), Exponent: 1}
}

// roadOf and circuitOf are the factors of a set's rates.
func (h *history) roadOf(key int) []reliability.Power {
	return []reliability.Power{{Factor: 0, Exponent: 1}, {Factor: h.ofKey(key), Exponent: 1}}
}

func (h *history) circuitOf(key int) []reliability.Power {
	return []reliability.Power{{Factor: 1, Exponent: 1}, {Factor: h.ofKey(key) + 1, Exponent: 1}}
}

// priorFactors is the prior of the factors.
func (h *history) priorFactors() []reliability.Factor {
	sd := func(v float64) reliability.Factor { return reliability.Factor{SD: math.Max(v, leastSpread)} }
	common, own := math.Sqrt(sharedVariance), math.Sqrt(1-sharedVariance)
	out := []reliability.Factor{sd(common * h.road), sd(common * h.circuit)}
	for range h.past.Visits {
		out = append(out, sd(1)) // in spreads of pace
	}
	for range h.past.Circuits {
		out = append(out, sd(h.summary))
	}
	for range h.keys {
		out = append(out, sd(own*h.road), sd(own*h.circuit))
		for range 2 * len(h.zones) {
			out = append(out, sd(pointSpread))
		}
	}
	return out
}

// taken is what the driving between two odometers took from a reading's point,
// with the factors it is multiplied by.
func (h *history) taken(r reading, of func(*kind.Wear) float64, p *trip.Past, from, to float64) []reliability.Taken {
	road, visits := p.Taken(of, from, to)
	var out []reliability.Taken
	if road > 0 {
		out = append(out, reliability.Taken{Amount: road, Powers: append(h.roadOf(r.key), h.ofPoint(r))})
	}
	for _, v := range visits {
		if v.Loss[1] <= 0 {
			continue
		}
		powers := make([]reliability.Power, 0, 5)
		powers = append(powers, h.circuitOf(r.key)...)
		powers = append(powers, h.ofPoint(r), reliability.Power{Factor: 2 + v.Visit, Exponent: paceExponent(v.Loss)})
		if v.Circuit != "" {
			powers = append(powers, reliability.Power{Factor: 2 + p.Visits + slices.Index(p.Circuits, v.Circuit), Exponent: 1})
		}
		out = append(out, reliability.Taken{Amount: v.Loss[1], Powers: powers})
	}
	return out
}

// paceExponent is how the log of a loss grows with the pace, per spread of pace.
func paceExponent(l trip.Loss) float64 {
	if l[0] <= 0 || l[2] <= 0 {
		return 0
	}
	return math.Log(l[2]/l[0]) / 2
}
