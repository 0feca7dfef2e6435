package planner

import "example.com/tripwear/profiles"

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
	c, choice, err := decided(m, f, trip, o)
	if err != nil {
		return nil, err
	}
	cooling, err := coolings(m, trip, c.journey, c.sets)
	if err != nil {
		return nil, err
	}
	probed, err := probings(m, trip, c.journey)
	if err != nil {
		return nil, err
	}

	p := &Plan{
		Car: f.Car.Name, Trip: trip.Name, TripID: trip.ID, Depart: trip.Depart,
		Odometer: float64(f.Car.Odometer), Draws: o.Draws, Seed: o.Seed,
		Legs: c.legs, Days: c.days, Circuits: circuits, Choice: choice, Currency: f.Car.Costs.Currency, Safe: true,
	}
	for _, s := range c.sets {
		p.Sets = append(p.Sets, s.Set)
		p.Safe = p.Safe && s.Decision.Action != DoNotTake && len(s.Stop) == 0
	}
	p.Rain = wetShare(c.legs)
	p.shop(c.journey, o.Today)
	p.pack(f)
	p.spend(f.Car.Costs)
	rain(p, f)
	p.Checks = checks(p, f)
	p.Probed, p.Scrub, p.Cooling = probed, scrub(m), cooling
	p.Corners = corners(c.usages)
	p.Suffers, p.SuffersWhy = suffers(p.Corners, c.legs)
	p.Warnings = append(warnings(p, f), c.learned.said()...)
	p.Assumptions = assumptions(p, f)
	p.Cautions = cautions()
	return p, nil
}

// outset is a car at the start of a trip: what is on it, and what was learned.
type outset struct {
	*journey
	learned *learning
	sets    []*set
}

// decided decides every set of a trip.
func decided(m machine, f *profiles.Folder, trip profiles.Trip, o Options) (*outset, Choice, error) {
	c, err := undecided(m, f, trip, o)
	if err != nil {
		return nil, Choice{}, err
	}
	return c, decideAll(c.sets, c.journey, o.Today, newDraws(o.Draws, o.Seed)), nil
}

// undecided walks the trip and makes its sets.
func undecided(m machine, f *profiles.Folder, trip profiles.Trip, o Options) (*outset, error) {
	w, err := walk(m, f, trip)
	if err != nil {
		return nil, err
	}
	l := &learning{way: w}
	if !o.Prior {
		if l, err = learn(m, w); err != nil {
			return nil, err
		}
	}
	return &outset{w, l, newSets(w, l.posterior)}, nil
}
