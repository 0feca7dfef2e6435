package projection

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/reliability"
)

// Level is a point that wears, with what each leg takes from it.
type Level struct {
	plan.Point
	Spec        kind.Point
	From        float64 // level the draws start from: as measured, or new where never measured
	StartSD     float64 // one standard deviation of that level
	wornRoad    float64 // worn on roads before the trip by the model: the rates' spread applies to it
	wornCircuit float64 // the same on circuits
	doubtful    float64 // of wornRoad: by miles of which any share may be its own
	open        bool    // neither a reading nor a good look speaks for its place
	tied        int     // the posterior's error of the reading it starts from, by its index; 0 for none
	held        bool    // to most, by what was found
	most        float64
	LegLoss     []trip.Loss
	Ceiling     []float64 // level that time alone allows after each leg; nil where time does not count
}

// Set is one set of parts of the car, such as the front pads: how it starts the
// trip, and what the trip takes from it.
type Set struct {
	plan.Set
	Spec        *kind.Kind
	Way         *trip.Journey // as its part sees it, which may lie aside
	Levels      []Level
	RoadSD      float64            // spread of the road rate, sd of ln
	CircuitSD   float64            // spread of the circuit rate, sd of ln
	SummarySD   float64            // added where a circuit is known by its summary alone
	Rates       RatePosterior      // zero where the logbook says nothing of them
	hub         *reliability.Scale // posterior of the bearings at its corner; nil where that is the prior
	age         age                // of a part that fails
	Credits     profiles.Caught    // what checks are worth
	Unnoticed   float64            // chance of driving across the limit unnoticed if nothing is done
	FitAt       []string           // where it can be replaced: "home", "shop", "paddock"
	Shelf       int                // spares of its part on the shelf
	failedNow   bool               // a finding ended its life: the draws of a hub's life do not count
	RepairFirst bool               // and a new part alone does not cure it
	Hangs       string             // what would settle a refusal that hangs on what is assumed
	Watched     bool               // a finding wants watching, whatever the forecast says
	Replacement *Set               // the same set with a new part; nil for one that is a replacement
	before      *Set               // as it was before it was put for the worse; nil where it was not
	replaces    *Set               // the set on the car that this one replaces; nil for that one
	noise       *noise             // its draws, once drawn
	Lifetime    bool               // ends by a drawn failure, not by reaching a level
	PerLeg      bool               // each leg has a level of its own, nothing adds up
}

// NewSets makes every set of the car, in the order of a walk round it, from
// its readings, the driving since, and the posterior of the rates.
func NewSets(w *trip.Journey, post Posterior) []*Set {
	var out []*Set
	for _, t := range profiles.Sets() {
		on := w.On[t.Kind]
		t.At = slices.DeleteFunc(slices.Clone(t.At), func(place string) bool { return on[place].Entry == nil })
		if len(t.At) > 0 && w.Takes(t.ID, on[t.At[0]].Part.ID) {
			out = append(out, newSet(w, post, t))
		}
		for _, part := range w.Folder.Asides(t) {
			if aside := t; w.Takes(t.ID, part) {
				aside.ID = AsideID(t.ID, part)
				out = append(out, newSet(w.With(t.ID, part), post, aside))
			}
		}
	}
	return out
}

// AsideID is the id of a set that lies aside, to swap with the one on the car.
func AsideID(set, part string) string { return set + ":" + part }

func newSet(w *trip.Journey, post Posterior, t profiles.Set) *Set {
	k := kind.Of(t.Kind)
	first := w.At(k, t.At[0])
	spread := k.Spreads(first)
	s := &Set{
		Set: plan.Set{
			ID: t.ID, Name: t.Name, Kind: k.ID, Part: first.Part.ID, PartName: first.Part.Name,
			Most: -1, Critical: k.Critical,
		},
		Spec: k, Way: w, Credits: w.Folder.Model.Caught, FitAt: first.Part.Fit, Lifetime: k.Lifetime, PerLeg: k.Apart,
		RoadSD: spread.Road, CircuitSD: spread.Circuit, SummarySD: spread.Summary,
	}
	of, _, _ := strings.Cut(t.ID, ":")
	if len(w.Folder.Asides(t)) > 0 {
		for j := range w.Legs {
			s.On = append(s.On, w.Wears(of, s.Part, j))
		}
		if slices.Contains(s.On, false) || len(w.Legs) == 0 {
			s.Name += " (" + s.Part + ")"
		}
	}
	usages := w.UsagesOf(of, s.Part)
	if k.Own != nil {
		own := k.Own(first.Part)
		s.Name = cmp.Or(own.Name, s.Name)
		s.Critical, s.Stranded = s.Critical || own.Critical, own.Stranded
	}
	for _, spare := range w.Folder.Car.Shelf {
		if spare.Part == first.Part.ID {
			s.Shelf += int(spare.Quantity)
		}
	}
	if k.Hangs != nil {
		s.Hangs = k.Hangs(first)
	}
	s.applyPosterior(post)
	read := map[string]bool{}
	for _, place := range t.At {
		read[place] = s.addPlace(w, post, w.At(k, place), usages)
	}
	s.AddReplacement().Replacement.ceil(w, func(a kind.At) kind.At {
		a.Entry = &profiles.Fitted{}
		return a
	})
	s.ceil(w, func(a kind.At) kind.At { return a })
	s.Read = true
	for _, place := range t.At {
		a := w.At(k, place)
		s.inspect(k.Inspect(a), place)
		s.Doubts = append(s.Doubts, w.Folder.Doubts(k.ID, place)...)
		told, good := k.Looked(a)
		s.Read = s.Read && (read[place] || told)
		for i := range s.Levels {
			if p := &s.Levels[i]; p.Place == place {
				p.open = !read[place] && !good
			}
		}
	}
	return s
}

// applyPosterior replaces the model's spreads with the posterior of the rates.
func (s *Set) applyPosterior(post Posterior) {
	if rates, ok := post.Sets[s.ID]; ok {
		s.Rates, s.Learned = rates, rates.Learned
		s.RoadSD, s.CircuitSD = rates.Spreads()
	}
	if scale, ok := post.Hubs[s.ID]; ok {
		s.hub = &scale
	}
}

// addPlace appends the points of one place and says whether one of them was
// read.
func (s *Set) addPlace(w *trip.Journey, post Posterior, a kind.At, usages []trip.Usage) (read bool) {
	for _, kp := range s.Spec.Points(a) {
		p := Level{Point: plan.Point{
			Place: a.Place, Zone: kp.Zone, Measure: kp.Measure,
			New: kp.New, Start: kp.New, Limit: kp.Limit, Margin: kp.Margin, Reading: kp.Gauge,
		}, Spec: kp}
		switch {
		case kp.Read != nil:
			read = true
			p.Start, p.StartSD = *kp.Read, kp.Gauge
			s.describeMeasured(kp, kp.Said)
			s.wearSinceReading(w, post, &p, kp, a)
		case kp.Used != nil:
			read = true
			p.Start = kp.New - *kp.Used
			p.wornRoad, p.wornCircuit = w.SinceWritten(a, kp.Of)
			s.describeMeasured(kp, kp.Said)
		case s.PerLeg:
			s.describeMeasured(kp, s.Spec.Unread(a))
		case !s.PerLeg:
			p.wornRoad, p.wornCircuit, p.doubtful = w.WornSince(a, kp)
			if !kp.Also {
				s.describeMeasured(kp, s.Spec.Unread(a))
			}
		}
		if s.Lifetime {
			s.age = age{p.wornRoad, p.wornCircuit, a.Entry.Since.Unmetered && kp.Used == nil}
			if kp.Used != nil {
				s.age.circuit += *kp.Used
			}
			p.Start, p.wornRoad, p.wornCircuit, p.doubtful = max(0, kp.New-s.age.nominal()), 0, 0, 0 // as old as it may be
		}
		s.addLevel(p, usages, kp.Of)
		if s.Lifetime {
			s.Levels[len(s.Levels)-1].Prior = [2]float64{s.age.road, s.age.circuit}
		}
	}
	return read
}

// describeMeasured says how the set's start is known, and after that how what
// is read beside its life is.
func (s *Set) describeMeasured(kp kind.Point, how string) {
	if kp.Also {
		s.Measured += how
		return
	}
	s.Measured = how
}

// addLevel appends a point and its losses, at the posterior's median rates.
func (s *Set) addLevel(p Level, usages []trip.Usage, of func(*kind.Wear) float64) {
	road := s.Rates.OnRoads(p.Place, p.Zone)
	p.From = p.Start
	p.Prior, p.Gauge = [2]float64{float64((p.wornRoad - float64(p.doubtful/2)) * road), float64(p.wornCircuit * s.Rates.OnCircuit(p.Place, p.Zone, ""))}, p.StartSD
	if p.tied > 0 {
		p.Start, p.Gauge = p.Start+s.Rates.Mean[p.tied], s.Rates.SD(p.tied)
	}
	p.Start -= p.Prior[0] + p.Prior[1]
	for i := range usages {
		u := &usages[i]
		rate := road
		if u.Circuit {
			rate = s.Rates.OnCircuit(p.Place, p.Zone, u.Name)
		}
		p.LegLoss = append(p.LegLoss, trip.Loss{of(&u.At[0]), of(&u.At[1]), of(&u.At[2])})
		p.Loss = append(p.Loss, rate*of(u.Nominal()))
		if !s.PerLeg {
			p.Slow, p.Fast = append(p.Slow, rate*of(&u.At[0])), append(p.Fast, rate*of(&u.At[2]))
		}
	}
	s.Levels = append(s.Levels, p)
}

// AddReplacement gives the set its replacement, which starts as a new part.
func (s *Set) AddReplacement() *Set {
	newSet := *s
	newSet.Levels = make([]Level, len(s.Levels))
	for i, p := range s.Levels {
		p.Start, p.From, p.StartSD, p.wornRoad, p.wornCircuit, p.doubtful, p.tied, p.Ceiling, p.held = p.New, p.New, 0, 0, 0, 0, 0, nil, false
		newSet.Levels[i] = p
	}
	newSet.age, newSet.Replacement, newSet.replaces = age{}, nil, s
	s.Replacement = &newSet
	return s
}

// ceil gives every point what time, or the leg itself, allows the parts at its
// places.
func (s *Set) ceil(w *trip.Journey, of func(kind.At) kind.At) {
	i := 0
	for _, place := range s.Places() {
		a := of(w.At(s.Spec, place))
		for _, kp := range s.Spec.Points(a) {
			if p := &s.Levels[i]; kp.Cap != nil {
				p.Ceiling = s.ceilings(w, a, kp)
				if !s.PerLeg {
					p.Cap = p.Ceiling
				}
				if s.Spec.Counted { // what its age leaves of it now
					s.Levels[i].Start = min(s.Levels[i].Start, kp.Cap(w.Departure(a)))
				}
			}
			i++
		}
	}
}

// FromLeg is a set with a new part that goes on before a leg of the journey.
func (w *Worker) FromLeg(s *Set, leg int) *Set {
	w.noiseOf(s.Replacement) // once, for all legs
	if !slices.ContainsFunc(s.Levels, func(p Level) bool { return p.Ceiling != nil }) {
		return s.Replacement
	}
	out, way := *s.Replacement, s.Way
	out.Levels = slices.Clone(out.Levels)
	out.ceil(way, func(a kind.At) kind.At {
		fitted := &profiles.Fitted{}
		if leg > 0 && !way.Depart.IsZero() {
			fitted.Since.Date = way.Depart.Add(time.Duration(way.Legs[leg-1].EndDay * 24 * float64(time.Hour)))
		}
		a.Entry = fitted
		return a
	})
	return &out
}

// ceilings are what time, or the leg itself, allows a point after each leg. A
// level of each leg's own counts on circuits only.
func (s *Set) ceilings(w *trip.Journey, a kind.At, kp kind.Point) []float64 {
	var out []float64
	for j := range w.Legs {
		if s.PerLeg && !w.Usages[j].Circuit {
			out = append(out, math.Inf(1))
			continue
		}
		m := w.Moment(a, j)
		m.Age = max(0, m.Age) // before it goes on
		left := kp.Cap(m)
		if !s.PerLeg && len(out) > 0 { // what ran out on a leg is no better on the next
			left = min(left, out[len(out)-1])
		}
		out = append(out, left)
	}
	return out
}

// inspect lets what was found at a place override the model, for the worse.
func (s *Set) inspect(found []kind.Verdict, place string) {
	for _, v := range found {
		if v.Forbids {
			s.Stop = append(s.Stop, v.Text)
			s.RepairFirst = s.RepairFirst || v.Final
		} else {
			s.Seen = append(s.Seen, v.Text)
			s.Watched = s.Watched || v.Watched
		}
		if v.Lower == nil {
			continue
		}
		s.failedNow = s.failedNow || v.Forbids
		for i := range s.Levels {
			p := &s.Levels[i]
			if p.Place != place {
				continue
			}
			if most := v.Lower(p.Spec, math.Inf(1)); !math.IsInf(most, 1) {
				p.lower(most)
			}
			for j := range p.Ceiling {
				if v.Forbids {
					p.Ceiling[j] = math.Min(p.Ceiling[j], 0)
				}
			}
		}
	}
}

// lower holds a point to a level at most: what the model has below it stays there.
func (p *Level) lower(level float64) {
	if !p.held || level < p.most {
		p.held, p.most = true, level
	}
	p.Start = math.Min(p.Start, level)
}

// Places lists where the set's points are, each once.
func (s *Set) Places() []string {
	var out []string
	for _, p := range s.Levels {
		if !slices.Contains(out, p.Place) {
			out = append(out, p.Place)
		}
	}
	return out
}
