package trip

import (
	"fmt"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// Stretch is a part of a season: a trip, or the days at home before the next one.
type Stretch struct {
	Trip   profiles.Trip // the one before which the car is at home
	Way    *Journey      // its own legs
	First  int           // of the season's legs
	Since  int           // the leg from which on it answers for a limit that is reached: those at home before it too
	AtHome bool
}

// Season is the car on several trips, one after the other, as one journey: at
// home between them it is driven so many meters a month.
func (w *Journey) Season(m Machine, trips []profiles.Trip, usual float64) (*Journey, []Stretch, error) {
	whole := *w
	whole.Depart, whole.Swaps = trips[0].Depart, nil
	var out []Stretch
	var back time.Time
	visits := 0
	add := func(t profiles.Trip, way *Journey, atHome bool) {
		s := Stretch{t, way, len(whole.Legs), len(whole.Legs), atHome}
		if k := len(out) - 1; k >= 0 && out[k].AtHome {
			s.Since = out[k].First
		}
		out = append(out, s)
		before, been := way.Depart.Sub(whole.Depart).Hours()/24, visits
		for j, l := range way.Legs {
			u := way.Usages[j]
			if u.Visit > 0 {
				u.Visit += been
				visits = u.Visit
			}
			back = way.Depart.Add(time.Duration(l.EndDay * float64(day)))
			l.EndDay += before
			whole.Legs, whole.Usages = append(whole.Legs, l), append(whole.Usages, u)
		}
	}
	for k, t := range trips {
		way, err := w.Off(m, t)
		if err != nil {
			return nil, nil, err
		}
		if k > 0 && t.Depart.Before(back.Truncate(day)) {
			return nil, nil, profiles.Errors{{
				What:     fmt.Sprintf("%s departs on %s, but %s is back on %s", t.Name, t.Depart.Format(time.DateOnly), trips[k-1].Name, back.Format(time.DateOnly)),
				Expected: "trips one after another", Hint: "change depart of one of them, or name the trips of the season: tripwear season TRIP...",
			}}
		}
		if k > 0 && usual > 0 {
			add(t, w.everyday(m, t, back, usual), true)
		}
		add(t, way, false)
	}
	whole.heatFluid()
	for _, s := range out {
		for j := range s.Way.Legs {
			s.Way.Legs[j].FluidPeak = whole.Legs[s.First+j].FluidPeak
		}
	}
	return &whole, out, nil
}

// everyday is the miles driven from coming home until a trip leaves, on what the
// car has on.
func (w *Journey) everyday(m Machine, next profiles.Trip, back time.Time, usual float64) *Journey {
	const mild = 20 // C
	f, home := w.Folder, *w
	leave := next.Depart.Add(time.Duration(morning * float64(time.Hour)))
	u, l := RoadUsage(m, f.Model, profiles.Leg{
		Kind: profiles.RoadLeg, Name: "everyday miles before " + next.Name, Surface: "mixed", Ambient: mild,
		Distance: quantity.Length(usual * max(0, leave.Sub(back).Hours()/24) / kind.Month),
	})
	home.Depart = back.Truncate(day)
	l.Start, l.End, l.EndDay, l.Fit = back, leave, leave.Sub(home.Depart).Hours()/24, f.Worn()
	home.Legs, home.Usages, home.Swaps = []plan.Leg{l}, []Usage{u}, nil
	fuelFor(&home.Legs[0], f.Car)
	refuel(home.Legs, float64(f.Car.Fuel.Tank))
	return &home
}
