package planner

import (
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/duty"
)

// Make plans a trip of the folder's car. It fails where a circuit cannot be
// driven as written, naming the circuit; a trip that is not safe is a plan
// with Safe false, not an error.
func Make(f *profiles.Folder, trip profiles.Trip, o Options) (*Plan, error) {
	o = o.orDefault()
	m := build(f)
	circuits, err := views(m, f, trip)
	if err != nil {
		return nil, err
	}
	b, sets, choice, err := decided(m, f, trip, o)
	if err != nil {
		return nil, err
	}
	cooling, err := coolings(m, f, trip, b, sets)
	if err != nil {
		return nil, err
	}
	probed, err := probings(m, f, trip, b)
	if err != nil {
		return nil, err
	}
	legs, usages := b.legs, b.usages

	p := &Plan{
		Car: f.Car.Name, Trip: trip.Name, TripID: trip.ID, Depart: trip.Depart,
		Odometer: float64(f.Car.Odometer), Draws: o.Draws, Seed: o.Seed,
		Legs: legs, Days: b.days, Circuits: circuits, Choice: choice, Currency: f.Car.Costs.Currency, Safe: true,
	}
	for _, s := range sets {
		p.Sets = append(p.Sets, s.Set)
		p.Safe = p.Safe && s.Decision.Action != DoNotTake && len(s.Stop) == 0
	}
	p.Rain = wetShare(legs)
	p.shop(sets, f, b, o.Today)
	p.pack(f)
	p.spend(f.Car.Costs)
	rain(p, f)
	p.Checks = checks(p, f)
	p.Probed, p.Scrub, p.Cooling = probed, scrub(m), cooling
	p.Corners = corners(usages)
	p.Suffers, p.SuffersWhy = suffers(p.Corners, legs)
	p.Warnings = append(warnings(p, f), b.heard.said()...)
	p.Assumptions = assumptions(p, f)
	p.Cautions = cautions()
	return p, nil
}

// decided decides every set of a trip.
func decided(m machine, f *profiles.Folder, trip profiles.Trip, o Options) (*builder, []*set, Choice, error) {
	b, sets, err := undecided(m, f, trip, o)
	if err != nil {
		return nil, nil, Choice{}, err
	}
	return b, sets, decideAll(sets, b, newDraws(o.Draws, o.Seed)), nil
}

// undecided walks the trip and makes its sets.
func undecided(m machine, f *profiles.Folder, trip profiles.Trip, o Options) (*builder, []*set, error) {
	way, err := itinerary(m, f, trip)
	if err != nil {
		return nil, nil, err
	}
	b := &builder{folder: f, parts: fittings(f), legs: way.legs, usages: way.usages, days: way.days, depart: trip.Depart, today: o.Today, prior: o.Prior}
	b.topUp = topUp(f.Car, b.legs, b.usages)
	if err := b.reference(m); err != nil {
		return nil, nil, err
	}
	sets := b.sets()
	b.inspect(sets)
	return b, sets, nil
}

// reference works out a highway metre and a circuit day on the stock
// reference lap, which stand for what happened to a part before it was ever
// measured, and hears the logbook.
func (b *builder) reference(m machine) error {
	const id = "\x00reference" // no file name can be this
	f := *b.folder
	f.Circuits = map[string]profiles.Circuit{id: {ID: id, Name: "stock reference lap", Corners: b.folder.Reference}}
	leg := profiles.Leg{
		Kind: profiles.CircuitLeg, Name: id, Days: 1, Pace: "intermediate",
		Sessions: profiles.Sessions{Count: f.Model.Session.PerDay, Each: f.Model.Session.Each},
		Ambient:  f.Model.Session.Ambient,
	}
	d, err := circuitDuty(m, &f, leg, 0)
	if err != nil {
		return err
	}
	slow, err := circuitDuty(m, &f, leg, warmLap*d.Pace)
	if err != nil {
		return err
	}
	b.perDay = circuitWear(m, sump(&f), leg, d, slow, duty.SessionLaps(float64(leg.Sessions.Each), d.Seconds))
	road, _ := roadUsage(m, f.Model, profiles.Leg{Kind: profiles.RoadLeg, Distance: 1, Surface: "highway"})
	b.perMetre = road.nominal()
	return b.hear(m)
}
