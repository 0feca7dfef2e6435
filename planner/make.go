package planner

import (
	"slices"
	"time"

	"example.com/tripwear/planner/answer"
	"example.com/tripwear/planner/decision"
	"example.com/tripwear/planner/learning"
	"example.com/tripwear/planner/lists"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/remedy"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/planner/worth"
	"example.com/tripwear/profiles"
)

// Make plans a trip of the folder's car. It fails where a circuit cannot be
// driven as written, naming the circuit; a trip that is not safe is a plan
// with Safe false, not an error.
func Make(f *profiles.Folder, outing profiles.Trip, o Options) (*plan.Plan, error) {
	o = o.orDefault()
	m := trip.NewMachine(f)
	circuits, err := trip.Views(m, f, outing)
	if err != nil {
		return nil, err
	}
	c, choice, err := decided(m, f, outing, o)
	if err != nil {
		return nil, err
	}
	cooling, err := lists.Coolings(m, outing, c.Journey, c.sets)
	if err != nil {
		return nil, err
	}
	probed, err := lists.Probings(m, outing, c.Journey)
	if err != nil {
		return nil, err
	}

	decision.Days(c.sets, c.Journey, c.turns)
	p := c.outline(f, outing, o)
	p.Circuits, p.Choice = circuits, choice
	w := projection.NewWorker(projection.NewDraws(o.Draws, o.Seed), c.Usages)
	for _, s := range c.sets {
		p.Courses = append(p.Courses, w.Decided(s)...)
	}
	c.judge(p, o.Today)
	p.Own = remedy.Own([]*plan.Plan{p}, f, []profiles.Trip{outing}, func(trips []profiles.Trip, draws int) ([]*plan.Plan, error) {
		other, err := o.anew(m)(f, trips[0], draws)
		return []*plan.Plan{other}, err
	})
	p.Rain = trip.WetShare(c.Legs)
	lists.Rain(p, f)
	p.Checks = lists.Checks(p, f)
	p.Probed, p.Scrub, p.Cooling = probed, lists.Scrub(m), cooling
	p.Corners = lists.Corners(c.Usages)
	p.Suffers, p.SuffersWhy = lists.Suffers(p.Corners, c.Legs)
	p.Worth = worth.Of(c.sets, c.Journey, o.Today, o.Seed)
	p.Warnings = slices.Concat(lists.Past(p, o.Today), lists.Warnings(p, f), c.learned.Warnings())
	p.Assumptions = lists.Assumptions(p, f)
	p.Cautions = lists.Cautions()
	p.Answer = answer.Of(p)
	return p, nil
}

// Safer completes a plan that is not safe with the smallest changes that make it so.
func Safer(p *plan.Plan, f *profiles.Folder, outing profiles.Trip, o Options) {
	o = o.orDefault()
	remedy.Find(p, f, outing, o.Today, func(f *profiles.Folder, outing profiles.Trip, draws int) (*plan.Plan, error) {
		return o.anew(trip.NewMachine(f))(f, outing, draws)
	})
}

// anew plans trips of a machine's car with other draws.
func (o Options) anew(m trip.Machine) remedy.Anew {
	return func(f *profiles.Folder, outing profiles.Trip, draws int) (*plan.Plan, error) {
		o := o
		o.Draws = draws
		return outlined(m, f, outing, o)
	}
}

// outlined is what a plan does about each set and what the trip costs then,
// without a word of why.
func outlined(m trip.Machine, f *profiles.Folder, outing profiles.Trip, o Options) (*plan.Plan, error) {
	c, err := undecided(m, f, outing, o)
	if err != nil {
		return nil, err
	}
	decision.Choose(c.sets, c.Journey, o.Today, projection.NewDraws(o.Draws, o.Seed))
	return c.outline(f, outing, o), nil
}

// outline is a plan of the sets as decided, with what it takes and costs.
func (c *outset) outline(f *profiles.Folder, outing profiles.Trip, o Options) *plan.Plan {
	p := &plan.Plan{
		Car: f.Car.Name, Trip: outing.Name, TripID: outing.ID, Depart: outing.Depart,
		Odometer: float64(f.Car.Odometer), Draws: o.Draws, Seed: o.Seed,
		Legs: c.Legs, Days: c.Days, Swaps: c.Swaps, Currency: f.Car.Costs.Currency,
	}
	if u := outing.Under; u != nil {
		p.Standing = &plan.Standing{Place: u.Place, Can: u.Can, Evening: u.Hour > 0}
	}
	for _, s := range c.sets {
		p.Sets = append(p.Sets, s.Set)
	}
	lists.Shop(p, c.Journey, o.Today)
	lists.Spend(p, f.Car.Costs)
	lists.Pack(p, f, c.Carried())
	return p
}

// judge gives a plan of the sets as decided its verdict.
func (c *outset) judge(p *plan.Plan, today time.Time) {
	p.Readings = c.readings(func(s *projection.Set, w *projection.Worker) string {
		return p.Now(does(s, decision.Alone(s, w, c.Journey, today).Action))
	})
	judge(p)
}

// outset is a car at the start of a trip: what is on it, and what was learned.
type outset struct {
	*trip.Journey
	learned *learning.Evidence
	sets    []*projection.Set // those that nobody read as if read for the worse
	unread  []unread
	turns   *projection.Draws // for what would turn an answer
}

// decided decides every set of a trip.
func decided(m trip.Machine, f *profiles.Folder, trip profiles.Trip, o Options) (*outset, plan.Choice, error) {
	c, err := undecided(m, f, trip, o)
	if err != nil {
		return nil, plan.Choice{}, err
	}
	return c, decision.Decide(c.sets, c.Journey, o.Today, projection.NewDraws(o.Draws, o.Seed)), nil
}

// undecided walks the trip and makes its sets.
func undecided(m trip.Machine, f *profiles.Folder, outing profiles.Trip, o Options) (*outset, error) {
	w, err := trip.NewJourney(m, f, outing)
	if err != nil {
		return nil, err
	}
	return starting(m, w, o)
}

// starting makes the sets of a journey.
func starting(m trip.Machine, w *trip.Journey, o Options) (*outset, error) {
	l, err := o.learned(m, w)
	if err != nil {
		return nil, err
	}
	c := &outset{Journey: w, learned: l, sets: projection.NewSets(w, l.Posterior), turns: projection.NewDraws(min(o.Draws, turnDraws), o.Seed)}
	c.findUnread()
	return c, nil
}

// learned is what the logbook says of the wear, unless the options leave it out.
func (o Options) learned(m trip.Machine, w *trip.Journey) (*learning.Evidence, error) {
	if o.Prior {
		return &learning.Evidence{Way: w}, nil
	}
	return learning.Learn(m, w)
}
