package planner

import (
	"math"
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/reliability"
)

// loss is what one leg takes from a point: at the three paces on a circuit,
// the same figure three times on the road.
type loss [3]float64

// point is a thing that wears, with what each leg takes from it.
type point struct {
	Point
	spec        kind.Point
	from        float64 // level the draws start from: as measured, or new where never measured
	gauge       float64 // one standard deviation of that level
	wornRoad    float64 // taken before the trip and never measured: the rates' spread applies to it
	wornCircuit float64
	legs        []loss
	cap         []float64 // level that time alone allows after each leg; nil where time does not count
}

// set is a Set under construction.
type set struct {
	Set
	kind    *kind.Kind
	points  []point
	road    float64            // spread of the road rate, sd of ln
	circuit float64            // spread of the circuit rate
	summary float64            // added where a circuit is known by its summary
	heard   belief             // what the logbook teaches of its rates; zero where nothing
	hub     *reliability.Scale // what is believed of hub bearings at its corner; nil where that is the prior
	fit     []string
	shelf   int
	failed  bool   // a place was found at its end: the draws of a hub's life do not count
	final   bool   // and a new part alone does not cure it
	watched bool   // found in a state that wants watching, whatever the forecast says
	fresh   *set   // the same set with a new part, for what follows a renewal
	old     *set   // the set that a new part follows; nil for the one on the car
	noise   *noise // its draws, once drawn

	lifetime bool // ends by a drawn failure, not by reaching a level
	alone    bool // each leg has a level of its own, nothing adds up
	age      float64
}

// newSets makes every set of the car, in the order of a walk round it, from
// what was read of it, what it was driven, and what that teaches.
func newSets(w *journey, post posterior) []*set {
	var out []*set
	for _, t := range profiles.Sets() {
		if w.on[t.Kind] == nil {
			continue
		}
		out = append(out, newSet(w, post, t))
	}
	return out
}

func newSet(w *journey, post posterior, t profiles.Set) *set {
	k := kind.Of(t.Kind)
	first := w.at(k, t.At[0])
	spread := k.Spreads(w.folder.Model.Spread)
	s := &set{
		Set: Set{
			ID: t.ID, Name: t.Name, Kind: k.ID, Part: first.Part.ID, PartName: first.Part.Name,
			Most: -1, Critical: k.Critical, Caught: k.Caught(w.folder.Model.Caught),
		},
		kind: k, fit: first.Part.Fit, lifetime: k.Lifetime, alone: k.Apart,
		road: spread.Road, circuit: spread.Circuit, summary: spread.Summary,
	}
	for _, spare := range w.folder.Car.Shelf {
		if spare.Part == first.Part.ID {
			s.shelf += int(spare.Quantity)
		}
	}
	s.teach(post)
	for _, place := range t.At {
		s.at(w, post, w.at(k, place))
	}
	s.renewed().ages(w, t)
	for _, place := range t.At {
		s.inspect(k.Inspect(w.at(k, place)), place)
	}
	return s
}

// teach puts what the logbook teaches in place of the model's own spreads.
func (s *set) teach(post posterior) {
	if heard, ok := post.sets[s.ID]; ok {
		s.heard, s.Learned = heard, heard.learned
		s.road, s.circuit = heard.roadSD, heard.circuitSD
	}
	if scale, ok := post.hubs[s.ID]; ok {
		s.hub = &scale
	}
}

// at appends the points of one place.
func (s *set) at(w *journey, post posterior, a kind.At) {
	for _, kp := range s.kind.Points(a) {
		p := point{Point: Point{
			Place: a.Place, Zone: kp.Zone, Measure: kp.Measure,
			New: kp.New, Start: kp.New, Limit: kp.Limit, Margin: kp.Margin, Reading: kp.Gauge,
		}, spec: kp}
		switch {
		case kp.Read != nil:
			p.Start, p.gauge = *kp.Read, kp.Gauge
			s.known(kp, kp.Said)
			s.since(w, post, &p, kp, a)
		case kp.Used != nil:
			p.Start = kp.New - *kp.Used
			p.wornRoad, p.wornCircuit = sinceWritten(w, kp.Of)
			s.known(kp, kp.Said)
		case s.alone:
			s.known(kp, s.kind.Unread(a))
		default:
			unmeasured(w, &p, a, kp.Of)
			if !kp.Also {
				s.known(kp, s.kind.Unread(a))
			}
		}
		if s.lifetime {
			if s.age = p.wornRoad; kp.Used != nil {
				s.age += *kp.Used
			}
			s.age += p.wornCircuit
			p.Start, p.wornRoad, p.wornCircuit = max(0, kp.New-s.age), 0, 0
		}
		s.add(p, w.usages, kp.Of)
	}
}

// known says how the set's start is known; what is read beside its life is
// said after that.
func (s *set) known(kp kind.Point, how string) {
	if kp.Also {
		s.Measured += how
		return
	}
	s.Measured = how
}

// add appends a point and its losses, as far as the logbook has taught them.
func (s *set) add(p point, usages []usage, of func(*kind.Wear) float64) {
	road, circuit := math.Exp(s.heard.road), math.Exp(s.heard.circuit)
	p.from = p.Start
	p.Start -= float64(p.wornRoad*road) + float64(p.wornCircuit*circuit)
	p.Prior, p.Gauge = [2]float64{p.wornRoad * road, p.wornCircuit * circuit}, p.gauge
	for i := range usages {
		u := &usages[i]
		taught := road
		if u.circuit {
			taught = circuit
		}
		p.legs = append(p.legs, loss{of(&u.at[0]), of(&u.at[1]), of(&u.at[2])})
		p.Loss = append(p.Loss, taught*of(u.nominal()))
		if !s.alone {
			p.Slow, p.Fast = append(p.Slow, taught*of(&u.at[0])), append(p.Fast, taught*of(&u.at[2]))
		}
	}
	s.points = append(s.points, p)
}

// renewed gives the set a twin that starts as a new part.
func (s *set) renewed() *set {
	twin := *s
	twin.points = make([]point, len(s.points))
	for i, p := range s.points {
		p.Start, p.from, p.gauge, p.wornRoad, p.wornCircuit, p.cap = p.New, p.New, 0, 0, 0, nil
		twin.points[i] = p
	}
	twin.age, twin.fresh, twin.old = 0, nil, s
	s.fresh = &twin
	return s
}

// ages puts down what time, or the leg itself, allows the set and its twin.
func (s *set) ages(w *journey, t profiles.Set) {
	i := 0
	for _, place := range t.At {
		a := w.at(s.kind, place)
		unused := a
		unused.Entry = &profiles.Fitted{}
		fresh := s.kind.Points(unused)
		for j, kp := range s.kind.Points(a) {
			if kp.Cap != nil {
				s.points[i].cap, s.fresh.points[i].cap = s.caps(w, a, kp), s.caps(w, unused, fresh[j])
				if !s.alone {
					s.points[i].Cap = s.points[i].cap
				}
			}
			i++
		}
	}
}

// caps are what time, or the leg itself, allows a point after each leg. What
// stands alone is not asked for on the road.
func (s *set) caps(w *journey, a kind.At, kp kind.Point) []float64 {
	var out []float64
	for j := range w.legs {
		if s.alone && !w.usages[j].circuit {
			out = append(out, math.Inf(1))
			continue
		}
		out = append(out, kp.Cap(w.moment(a, j)))
	}
	return out
}

// inspect lets what was found at a place override what the model believes of
// it, for the worse.
func (s *set) inspect(found []kind.Verdict, place string) {
	for _, v := range found {
		if v.Forbids {
			s.Stop = append(s.Stop, v.Text)
			s.final = s.final || v.Final
		} else {
			s.Seen = append(s.Seen, v.Text)
			s.watched = s.watched || v.Watched
		}
		if v.Lower == nil {
			continue
		}
		s.failed = s.failed || v.Forbids
		for i := range s.points {
			p := &s.points[i]
			if p.Place != place {
				continue
			}
			p.lower(v.Lower(p.spec, p.Start))
			for j := range p.cap {
				if v.Forbids {
					p.cap[j] = math.Min(p.cap[j], 0)
				}
			}
		}
	}
}

// lower puts a point at a level, if it is believed above it; what was seen is
// not uncertain.
func (p *point) lower(level float64) {
	if p.Start > level {
		p.Start, p.from, p.gauge, p.wornRoad, p.wornCircuit = level, level, 0, 0, 0
	}
}

// places lists where the set's points are, each once.
func (s *set) places() []string {
	var out []string
	for _, p := range s.points {
		if !slices.Contains(out, p.Place) {
			out = append(out, p.Place)
		}
	}
	return out
}

// axlePlaces are the two wheels of an axle.
func axlePlaces(i int) []string { return []string{"LF", "RF", "LR", "RR"}[2*i : 2*i+2] }
