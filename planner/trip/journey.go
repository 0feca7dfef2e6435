package trip

import (
	"slices"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/brake"
	"example.com/tripwear/wearmodel/duty"
)

// day is 24 h.
const day = 24 * time.Hour

// Journey is a car and its trip: what is fitted, what it has been driven, and
// what each leg takes from it.
type Journey struct {
	Folder *profiles.Folder
	On     map[profiles.Kind]map[string]kind.At // parts fitted, by kind and place
	Past   *Past                                // by the logbook

	// A highway meter and a circuit day on the stock reference lap, for what
	// happened before a part was ever measured.
	PerMeter, PerDay kind.Wear

	Legs   []plan.Leg
	Swaps  []plan.Swap
	Usages []Usage
	Days   []plan.Day
	Depart time.Time       // zero where the trip has no date
	Under  *profiles.Under // where it goes on from; nil where it leaves home
	TopUp  float64         // m3 of oil to be added on the way

	asides map[aside]*Journey
}

// BeforeTrip is the car without a trip.
func BeforeTrip(m Machine, f *profiles.Folder) (*Journey, error) {
	w := &Journey{Folder: f, On: kind.Fitted(f)}
	if err := w.refer(m); err != nil {
		return nil, err
	}
	if err := w.layAside(m); err != nil {
		return nil, err
	}
	var err error
	w.Past, err = NewPast(m, f, map[string]Stages{})
	return w, err
}

// refer works out what is taken by driving that nobody wrote down.
func (w *Journey) refer(m Machine) error {
	f := w.Folder
	const id = "\x00reference" // no file name can be this
	ref := *f
	ref.Circuits = map[string]profiles.Circuit{id: {ID: id, Name: "stock reference lap", Corners: f.Reference}}
	leg := profiles.Leg{
		Kind: profiles.CircuitLeg, Name: id, Days: 1, Pace: "intermediate",
		Sessions: profiles.Sessions{Count: f.Model.Session.PerDay, Each: f.Model.Session.Each},
		Ambient:  f.Model.Session.Ambient,
	}
	d, err := CircuitDuty(m, &ref, leg, 0)
	if err != nil {
		return err
	}
	slow, err := CircuitDuty(m, &ref, leg, warmLap*d.Pace)
	if err != nil {
		return err
	}
	w.PerDay = kind.OnCircuit(CircuitAsk(m, f.Model, leg, d, slow, duty.SessionLaps(float64(leg.Sessions.Each), d.Seconds)))
	w.PerDay.Meters = 0 // of a day before the trip: the odometer has them among its miles
	w.PerMeter = perMeter(m, f)
	return nil
}

// perMeter is a meter of highway.
func perMeter(m Machine, f *profiles.Folder) kind.Wear {
	road, _ := RoadUsage(m, f.Model, profiles.Leg{Kind: profiles.RoadLeg, Distance: 1, Surface: "highway"})
	return *road.Nominal()
}

// NewJourney is the car on a trip.
func NewJourney(m Machine, f *profiles.Folder, trip profiles.Trip) (*Journey, error) {
	w, err := BeforeTrip(m, f)
	if err != nil {
		return nil, err
	}
	return w.Off(m, trip)
}

// Off is the car on a trip, from where it stands before it.
func (w *Journey) Off(m Machine, trip profiles.Trip) (*Journey, error) {
	if err := w.Folder.Unworn(trip); err != nil {
		return nil, err
	}
	s, err := Itinerary(m, w.Folder, dress(w.Folder, trip))
	if err != nil {
		return nil, err
	}
	on := *w
	on.Legs, on.Usages, on.Days, on.Depart = s.Legs, s.Usages, s.days, trip.Depart
	on.Under = trip.Under
	on.TopUp = topUp(w.Folder.Car, on.Legs, on.Usages)
	on.heatFluid()
	on.Swaps = nil
	return &on, on.swap(trip, s.asked)
}

// mostly is the share of a leg's road in rain from which on the leg is wet.
const mostly = 0.5

// At is the part of a kind at a place.
func (w *Journey) At(k *kind.Kind, place string) kind.At {
	a := w.On[k.ID][place]
	a.End, a.Parked = w.Depart, len(w.Legs) == 0
	if !w.Depart.IsZero() && len(w.Legs) > 0 {
		a.End = w.Depart.Add(time.Duration(w.Legs[len(w.Legs)-1].EndDay * float64(day)))
	}
	a.Cycles = func() float64 { return w.Cycles(w.On[k.ID][place]) }
	for j, l := range w.Legs {
		if a.Entry != nil && !w.Wears(setOf(k, place), a.Part.ID, j) {
			continue
		}
		a.Circuit = a.Circuit || l.Kind == profiles.CircuitLeg
		a.Wet = a.Wet || l.WetCircuit || l.Kind == profiles.RoadLeg && l.Rain > mostly
	}
	return a
}

// setOf is the id of a kind's set at a place.
func setOf(k *kind.Kind, place string) string {
	for _, s := range k.ID.Info().Sets {
		if slices.Contains(s.At, place) {
			return s.ID
		}
	}
	return ""
}

// Departure is when the trip leaves, for a part.
func (w *Journey) Departure(a kind.At) kind.Moment {
	return kind.Moment{Age: kind.AgeAtDeparture(a.Entry, w.Depart), Day: w.Depart, Circuit: a.Circuit}
}

// Moment is the end of a leg for a part.
func (w *Journey) Moment(a kind.At, leg int) kind.Moment {
	l := w.Legs[leg]
	m := kind.Moment{Age: kind.AgeAtDeparture(a.Entry, w.Depart) + l.EndDay, Away: l.EndDay, Ambient: l.Ambient, Circuit: l.Kind == profiles.CircuitLeg}
	if !w.Depart.IsZero() {
		m.Day = w.Depart.Add(time.Duration(l.EndDay * float64(day)))
	}
	return m
}

// heatFluid says how far the pads are used by each leg, nominal, since the
// fluid is hotter behind thin pads, and how hot it gets.
func (w *Journey) heatFluid() {
	for _, p := range duty.Places {
		w.wearPads(p, w.At(kind.Pads, p.String()))
		for i := range w.Folder.Car.Aside {
			e := &w.Folder.Car.Aside[i]
			if part := w.Folder.Parts[e.Part]; part.Kind == profiles.Pads && slices.Contains(e.At, p.String()) {
				w.wearPads(p, kind.At{Folder: w.Folder, Part: part, Entry: e, Place: p.String()})
			}
		}
	}
	heat := kind.Fluid.Points(w.At(kind.Fluid, "system"))[0].Of
	for j := range w.Usages {
		if w.Usages[j].Circuit {
			w.Legs[j].FluidPeak = w.Legs[j].Ambient + heat(w.Usages[j].Nominal())
		}
	}
}

// wearPads notes how thin pads are by each leg that they are on.
func (w *Journey) wearPads(p duty.Place, a kind.At) {
	pads := kind.Pads.Points(a)[0]
	now := pads.New
	if pads.Read != nil {
		now = *pads.Read
	} else {
		road, circuit, doubtful := w.WornSince(a, pads)
		now -= road - float64(doubtful/2) + circuit
	}
	for j := range w.Usages {
		if !w.Wears(setOf(kind.Pads, a.Place), a.Part.ID, j) {
			continue
		}
		now -= pads.Of(w.Usages[j].Nominal())
		for k := range w.Usages[j].At {
			w.Usages[j].At[k].PadsWorn[p] = brake.Worn(now, pads.New, pads.Limit)
		}
	}
}
