package planner

import (
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/standing"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

// Outing is a car and a trip to be planned: the trip as written, or what is left
// of it where the logbook has begun it.
type Outing struct {
	Folder *profiles.Folder // under way its shelf is what the trunk holds
	Trip   profiles.Trip

	begun *trip.Begun // nil before the trip
	log   *profiles.Folder
	left  *plan.Plan // of the whole trip, as it was before leaving
}

// Whole is a trip as written, whatever the logbook has of it.
func Whole(f *profiles.Folder, t profiles.Trip) *Outing { return &Outing{Folder: f, Trip: t} }

// Left is what is left of a trip: all of it, unless the logbook has begun it.
func Left(f *profiles.Folder, t profiles.Trip, o Options) (*Outing, error) {
	m := trip.NewMachine(f)
	b, err := trip.Under(m, f, o.Today)
	if err != nil || b == nil || b.Trip.ID != t.ID {
		return Whole(f, t), err
	}
	left, err := Make(standing.Before(f, b), b.Trip, o.timeless())
	if err != nil {
		return nil, err
	}
	return &Outing{
		Folder: standing.OnTheRoad(f, standing.Trunk(left, f, b)), Trip: b.Rest(f, o.Today),
		begun: b, log: f, left: left,
	}, nil
}

// UnderWay is the id of the trip that the logbook has begun; "" where it has none.
func UnderWay(f *profiles.Folder, today time.Time) (string, error) {
	b, err := trip.Under(trip.NewMachine(f), f, today)
	if b == nil || err != nil {
		return "", err
	}
	return b.Trip.ID, nil
}

// Plan plans an outing.
func (g *Outing) Plan(o Options) (*plan.Plan, error) {
	p, err := Make(g.Folder, g.Trip, o)
	if err == nil && g.begun != nil {
		standing.Tell(p, g.left, g.log, g.begun)
	}
	return p, err
}
