package projection

import (
	"math"
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/reliability"
)

// Level is a thing that wears, with what each leg takes from it.
type Level struct {
	plan.Point
	Spec        kind.Point
	From        float64 // level the draws start from: as measured, or new where never measured
	StartSD     float64 // one standard deviation of that level
	wornRoad    float64 // taken before the trip and never measured: the rates' spread applies to it
	wornCircuit float64
	Legs        []trip.Loss
	Ceiling     []float64 // level that time alone allows after each leg; nil where time does not count
}

// Set is a Set under construction.
type Set struct {
	plan.Set
	Spec    *kind.Kind
	Levels  []Level
	Road    float64            // spread of the road rate, sd of ln
	Circuit float64            // spread of the circuit rate
	Summary float64            // added where a circuit is known by its summary
	Belief  Belief             // what the logbook teaches of its rates; zero where nothing
	hub     *reliability.Scale // what is believed of hub bearings at its corner; nil where that is the prior
	Fit     []string
	Shelf   int
	failed  bool   // a place was found at its end: the draws of a hub's life do not count
	Final   bool   // and a new part alone does not cure it
	Watched bool   // found in a state that wants watching, whatever the forecast says
	Fresh   *Set   // the same set with a new part, for what follows a renewal
	old     *Set   // the set that a new part follows; nil for the one on the car
	Noise   *noise // its draws, once drawn

	Lifetime bool // ends by a drawn failure, not by reaching a level
	Apart    bool // each leg has a level of its own, nothing adds up
	age      float64
}

// NewSets makes every set of the car, in the order of a walk round it, from
// what was read of it, what it was driven, and what that teaches.
func NewSets(w *trip.Journey, post Posterior) []*Set {
	var out []*Set
	for _, t := range profiles.Sets() {
		on := w.On[t.Kind]
		t.At = slices.DeleteFunc(slices.Clone(t.At), func(place string) bool { return on[place].Entry == nil })
		if len(t.At) > 0 {
			out = append(out, newSet(w, post, t))
		}
	}
	return out
}

func newSet(w *trip.Journey, post Posterior, t profiles.Set) *Set {
	k := kind.Of(t.Kind)
	first := w.At(k, t.At[0])
	spread := k.Spreads(w.Folder.Model.Spread)
	s := &Set{
		Set: plan.Set{
			ID: t.ID, Name: t.Name, Kind: k.ID, Part: first.Part.ID, PartName: first.Part.Name,
			Most: -1, Critical: k.Critical, Caught: k.Caught(w.Folder.Model.Caught),
		},
		Spec: k, Fit: first.Part.Fit, Lifetime: k.Lifetime, Apart: k.Apart,
		Road: spread.Road, Circuit: spread.Circuit, Summary: spread.Summary,
	}
	for _, spare := range w.Folder.Car.Shelf {
		if spare.Part == first.Part.ID {
			s.Shelf += int(spare.Quantity)
		}
	}
	s.teach(post)
	for _, place := range t.At {
		s.at(w, post, w.At(k, place))
	}
	s.Renewed().ages(w, t)
	for _, place := range t.At {
		s.inspect(k.Inspect(w.At(k, place)), place)
	}
	return s
}

// teach puts what the logbook teaches in place of the model's own spreads.
func (s *Set) teach(post Posterior) {
	if heard, ok := post.Sets[s.ID]; ok {
		s.Belief, s.Learned = heard, heard.Learned
		s.Road, s.Circuit = heard.RoadSD, heard.CircuitSD
	}
	if scale, ok := post.Hubs[s.ID]; ok {
		s.hub = &scale
	}
}

// at appends the points of one place.
func (s *Set) at(w *trip.Journey, post Posterior, a kind.At) {
	for _, kp := range s.Spec.Points(a) {
		p := Level{Point: plan.Point{
			Place: a.Place, Zone: kp.Zone, Measure: kp.Measure,
			New: kp.New, Start: kp.New, Limit: kp.Limit, Margin: kp.Margin, Reading: kp.Gauge,
		}, Spec: kp}
		switch {
		case kp.Read != nil:
			p.Start, p.StartSD = *kp.Read, kp.Gauge
			s.known(kp, kp.Said)
			s.since(w, post, &p, kp, a)
		case kp.Used != nil:
			p.Start = kp.New - *kp.Used
			p.wornRoad, p.wornCircuit = sinceWritten(w, kp.Of)
			s.known(kp, kp.Said)
		case s.Apart:
			s.known(kp, s.Spec.Unread(a))
		default:
			unmeasured(w, &p, a, kp.Of)
			if !kp.Also {
				s.known(kp, s.Spec.Unread(a))
			}
		}
		if s.Lifetime {
			if s.age = p.wornRoad; kp.Used != nil {
				s.age += *kp.Used
			}
			s.age += p.wornCircuit
			p.Start, p.wornRoad, p.wornCircuit = max(0, kp.New-s.age), 0, 0
		}
		s.add(p, w.Usages, kp.Of)
	}
}

// known says how the set's start is known; what is read beside its life is
// said after that.
func (s *Set) known(kp kind.Point, how string) {
	if kp.Also {
		s.Measured += how
		return
	}
	s.Measured = how
}

// add appends a point and its losses, as far as the logbook has taught them.
func (s *Set) add(p Level, usages []trip.Usage, of func(*kind.Wear) float64) {
	road, circuit := math.Exp(s.Belief.Road), math.Exp(s.Belief.Circuit)
	p.From = p.Start
	p.Start -= float64(p.wornRoad*road) + float64(p.wornCircuit*circuit)
	p.Prior, p.Gauge = [2]float64{p.wornRoad * road, p.wornCircuit * circuit}, p.StartSD
	for i := range usages {
		u := &usages[i]
		taught := road
		if u.Circuit {
			taught = circuit
		}
		p.Legs = append(p.Legs, trip.Loss{of(&u.At[0]), of(&u.At[1]), of(&u.At[2])})
		p.Loss = append(p.Loss, taught*of(u.Nominal()))
		if !s.Apart {
			p.Slow, p.Fast = append(p.Slow, taught*of(&u.At[0])), append(p.Fast, taught*of(&u.At[2]))
		}
	}
	s.Levels = append(s.Levels, p)
}

// Renewed gives the set a twin that starts as a new part.
func (s *Set) Renewed() *Set {
	twin := *s
	twin.Levels = make([]Level, len(s.Levels))
	for i, p := range s.Levels {
		p.Start, p.From, p.StartSD, p.wornRoad, p.wornCircuit, p.Ceiling = p.New, p.New, 0, 0, 0, nil
		twin.Levels[i] = p
	}
	twin.age, twin.Fresh, twin.old = 0, nil, s
	s.Fresh = &twin
	return s
}

// ages puts down what time, or the leg itself, allows the set and its twin.
func (s *Set) ages(w *trip.Journey, t profiles.Set) {
	i := 0
	for _, place := range t.At {
		a := w.At(s.Spec, place)
		unused := a
		unused.Entry = &profiles.Fitted{}
		fresh := s.Spec.Points(unused)
		for j, kp := range s.Spec.Points(a) {
			if kp.Cap != nil {
				s.Levels[i].Ceiling, s.Fresh.Levels[i].Ceiling = s.caps(w, a, kp), s.caps(w, unused, fresh[j])
				if !s.Apart {
					s.Levels[i].Cap = s.Levels[i].Ceiling
				}
			}
			i++
		}
	}
}

// caps are what time, or the leg itself, allows a point after each leg. What
// stands alone is not asked for on the road.
func (s *Set) caps(w *trip.Journey, a kind.At, kp kind.Point) []float64 {
	var out []float64
	for j := range w.Legs {
		if s.Apart && !w.Usages[j].Circuit {
			out = append(out, math.Inf(1))
			continue
		}
		out = append(out, kp.Cap(w.Moment(a, j)))
	}
	return out
}

// inspect lets what was found at a place override what the model believes of
// it, for the worse.
func (s *Set) inspect(found []kind.Verdict, place string) {
	for _, v := range found {
		if v.Forbids {
			s.Stop = append(s.Stop, v.Text)
			s.Final = s.Final || v.Final
		} else {
			s.Seen = append(s.Seen, v.Text)
			s.Watched = s.Watched || v.Watched
		}
		if v.Lower == nil {
			continue
		}
		s.failed = s.failed || v.Forbids
		for i := range s.Levels {
			p := &s.Levels[i]
			if p.Place != place {
				continue
			}
			p.lower(v.Lower(p.Spec, p.Start))
			for j := range p.Ceiling {
				if v.Forbids {
					p.Ceiling[j] = math.Min(p.Ceiling[j], 0)
				}
			}
		}
	}
}

// lower puts a point at a level, if it is believed above it; what was seen is
// not uncertain.
func (p *Level) lower(level float64) {
	if p.Start > level {
		p.Start, p.From, p.StartSD, p.wornRoad, p.wornCircuit = level, level, 0, 0, 0
	}
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

// AxlePlaces are the two wheels of an axle.
func AxlePlaces(i int) []string { return []string{"LF", "RF", "LR", "RR"}[2*i : 2*i+2] }
