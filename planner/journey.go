package planner

import (
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/labreport"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/brake"
	"example.com/tripwear/wearmodel/duty"
)

// day is 24 h.
const day = 24 * time.Hour

// journey is a car and the trip it goes on: what is on it, what it was driven, and
// what each leg takes from it.
type journey struct {
	folder *profiles.Folder
	on     map[profiles.Kind]map[string]kind.At
	past   *past // nil where the logbook has no row

	// A highway meter and a circuit day on the stock reference lap, for what
	// happened before a part was ever measured.
	perMetre, perDay kind.Wear

	legs   []Leg
	usages []usage
	days   []Day
	depart time.Time // zero where the trip has no date
	topUp  float64   // m3 of oil to be added on the way
}

// standing is the car before any trip.
func standing(m machine, f *profiles.Folder) (*journey, error) {
	w := &journey{folder: f, on: kind.Fitted(f)}
	const id = "\x00reference" // no file name can be this
	ref := *f
	ref.Circuits = map[string]profiles.Circuit{id: {ID: id, Name: "stock reference lap", Corners: f.Reference}}
	leg := profiles.Leg{
		Kind: profiles.CircuitLeg, Name: id, Days: 1, Pace: "intermediate",
		Sessions: profiles.Sessions{Count: f.Model.Session.PerDay, Each: f.Model.Session.Each},
		Ambient:  f.Model.Session.Ambient,
	}
	d, err := circuitDuty(m, &ref, leg, 0)
	if err != nil {
		return nil, err
	}
	slow, err := circuitDuty(m, &ref, leg, warmLap*d.Pace)
	if err != nil {
		return nil, err
	}
	w.perDay = kind.OnCircuit(asked(m, labreport.CircuitModel(&ref), leg, d, slow, duty.SessionLaps(float64(leg.Sessions.Each), d.Seconds)))
	road, _ := roadUsage(m, f.Model, profiles.Leg{Kind: profiles.RoadLeg, Distance: 1, Surface: "highway"})
	w.perMetre = *road.nominal()
	if len(f.Log) > 0 {
		w.past, err = newPast(m, f, map[string]stages{})
	}
	return w, err
}

// walk is the car on a trip.
func walk(m machine, f *profiles.Folder, trip profiles.Trip) (*journey, error) {
	s, err := itinerary(m, f, trip)
	if err != nil {
		return nil, err
	}
	w, err := standing(m, f)
	if err != nil {
		return nil, err
	}
	w.legs, w.usages, w.days, w.depart = s.legs, s.usages, s.days, trip.Depart
	w.topUp = topUp(f.Car, w.legs, w.usages)
	w.heatFluid()
	return w, nil
}

// at is the part of a kind at a place.
func (w *journey) at(k *kind.Kind, place string) kind.At {
	a := w.on[k.ID][place]
	if !w.depart.IsZero() && len(w.legs) > 0 {
		a.End = w.depart.Add(time.Duration(w.legs[len(w.legs)-1].EndDay * float64(day)))
	}
	return a
}

// moment is the end of a leg for a part.
func (w *journey) moment(a kind.At, leg int) kind.Moment {
	l := w.legs[leg]
	m := kind.Moment{Age: l.EndDay, Away: l.EndDay, Ambient: l.Ambient}
	if since := a.Entry.Since.Date; !since.IsZero() && !w.depart.IsZero() {
		m.Age = w.depart.Sub(since).Hours()/day.Hours() + l.EndDay
	}
	return m
}

// heatFluid says how far the front pads are used by each leg, nominal, since
// the fluid is hotter behind thin pads, and how hot it gets.
func (w *journey) heatFluid() {
	front := w.at(kind.Pads, "LF")
	pads := kind.Pads.Points(front)[0]
	now := pads.New
	if pads.Read != nil {
		now = *pads.Read
	}
	heat := kind.Fluid.Points(w.at(kind.Fluid, "system"))[0].Of
	for j := range w.usages {
		now -= pads.Of(w.usages[j].nominal())
		for k := range w.usages[j].at {
			w.usages[j].at[k].PadsWorn = brake.Worn(now, pads.New, pads.Limit)
		}
		if w.usages[j].circuit {
			w.legs[j].FluidPeak = w.legs[j].Ambient + heat(w.usages[j].nominal())
		}
	}
}
