package planner

import (
	"cmp"
	"slices"
	"time"

	"example.com/tripwear/planner/decision"
	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/remedy"
	"example.com/tripwear/planner/season"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

// Season plans trips of the folder's car as one, by date, with what is usual for
// the car driven between them.
func Season(f *profiles.Folder, trips []profiles.Trip, o Options) (*plan.Season, error) {
	s, err := asWritten(f, trips, o)
	if err != nil {
		return nil, err
	}
	s.Own = remedy.Own(s.Plans(), f, trips, func(trips []profiles.Trip, draws int) ([]*plan.Plan, error) {
		o := o
		o.Draws = draws
		s, err := asWritten(f, trips, o)
		if err != nil {
			return nil, err
		}
		return s.Plans(), nil
	})
	return s, nil
}

// asWritten plans a season with what its trips say is on.
func asWritten(f *profiles.Folder, trips []profiles.Trip, o Options) (*plan.Season, error) {
	o = o.orDefault()
	trips = slices.SortedStableFunc(slices.Values(trips), func(a, b profiles.Trip) int { return a.Depart.Compare(b.Depart) })
	m := trip.NewMachine(f)
	before, err := trip.BeforeTrip(m, f)
	if err != nil {
		return nil, err
	}
	own := inventory(before, o)
	out := &plan.Season{Car: f.Car.Name, Currency: f.Car.Costs.Currency, Usual: own.Everyday}
	if !own.Given {
		out.Reckoned = own.Since
	}
	way, stretches, err := before.Season(m, trips, out.Usual)
	if err != nil {
		return nil, err
	}
	c, err := starting(m, way, o)
	if err != nil {
		return nil, err
	}
	s := c.season(stretches, o)
	choice := season.Choose(s)
	if budget := float64(f.Car.Budget); budget >= 0 {
		out.Budget, choice = s.Within(budget, own.Day, trips[len(trips)-1].Depart, choice)
	}
	out.Cost, out.Bound, out.Nodes = choice.Cost, choice.Bound, choice.Nodes
	out.InTurn, out.RefusedInTurn = season.InTurn(s)
	for _, u := range c.unread {
		out.Unread = append(out.Unread, c.sets[u.set].Name)
	}
	a := agenda{Season: out, outset: c, today: o.Today, draws: o.Draws}
	for k, at := range stretches {
		a.add(at, k, choice)
	}
	a.order()
	out.Verdict, out.Safe = plan.Yes, true
	for k, t := range out.Calendar {
		if t.Verdict == plan.No {
			out.Verdict, out.Safe = plan.No, false
		}
		if !t.AtHome && (out.Calendar[out.Most].AtHome || t.Life > out.Calendar[out.Most].Life) {
			out.Most = k
		}
	}
	for i, set := range c.sets {
		a.wait(set, choice.Paths[i], choice.Waits[i])
	}
	return out, nil
}

// season is what the choice is asked.
func (c *outset) season(stretches []trip.Stretch, o Options) season.Season {
	s := season.Season{Visit: float64(c.Folder.Car.Costs.Visit), Sets: make([]season.Ahead, len(c.sets))}
	for _, at := range stretches {
		s.Trunk = append(s.Trunk, decision.TrunkLimit(at.Way))
	}
	d := projection.NewDraws(o.Draws, o.Seed)
	projection.Parallel(len(c.sets), func() func(int) {
		return func(i int) {
			set := c.sets[i]
			a := decision.NewAhead(set, projection.NewWorker(d, c.Usages), c.Journey, stretches, o.Today)
			s.Sets[i] = season.Ahead{Set: set.ID, Part: set.Part, Partner: kind.Partner(set.ID), Shelf: set.Shelf}
			s.Lay(&s.Sets[i], a.Steps)
		}
	})
	return s
}

// SeasonTrips are the trips that are named, or all that leave on a day or later,
// and not after another; by date. Without a day it is the last that anything is
// known of.
func SeasonTrips(f *profiles.Folder, names []string, from, to time.Time) ([]profiles.Trip, error) {
	var out []profiles.Trip
	for _, name := range names {
		t, err := f.FindTrip(name)
		if err != nil {
			return nil, err
		}
		out = append(out, t)
	}
	if len(names) == 0 {
		if from.IsZero() {
			from = trip.Latest(f, trip.NewestDay(f))
		}
		for _, t := range f.Trips {
			if !t.Depart.Before(from) && (to.IsZero() || !t.Depart.After(to)) {
				out = append(out, t)
			}
		}
	}
	slices.SortFunc(out, func(a, b profiles.Trip) int { return cmp.Or(a.Depart.Compare(b.Depart), cmp.Compare(a.ID, b.ID)) })
	return out, nil
}
