package planner

import (
	"cmp"
	"math"
	"slices"
	"time"

	"example.com/tripwear/planner/decision"
	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/lists"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/season"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// Season plans trips of the folder's car as one, by date, with what is usual for
// the car driven between them.
func Season(f *profiles.Folder, trips []profiles.Trip, o Options) (*plan.Season, error) {
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
	out.Cost, out.Bound, out.Nodes = choice.Cost, choice.Bound, choice.Nodes
	out.InTurn, out.RefusedInTurn = season.InTurn(s)
	for _, u := range c.unread {
		out.Unread = append(out.Unread, c.sets[u.set].Name)
	}
	for k, at := range stretches {
		out.Calendar = append(out.Calendar, c.stint(out, at, k, choice, o))
	}
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
		if w := waiting(set, choice.Waits[i]); len(w.Times) > 1 && changes(choice.Paths[i]) {
			out.Waits = append(out.Waits, w)
		}
	}
	slices.SortStableFunc(out.Orders, func(a, b plan.SeasonOrder) int {
		if a.OrderBy.IsZero() != b.OrderBy.IsZero() {
			return map[bool]int{true: 1, false: -1}[a.OrderBy.IsZero()]
		}
		return a.OrderBy.Compare(b.OrderBy)
	})
	slices.SortFunc(out.Months, func(a, b plan.Month) int { return a.First.Compare(b.First) })
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
			s.Sets[i].Lay(len(stretches), a.Steps)
		}
	})
	return s
}

// stint is one stretch of the calendar as decided; what it has to be done,
// ordered and paid goes to the season's lists.
func (c *outset) stint(out *plan.Season, at trip.Stretch, k int, choice season.Choice, o Options) plan.SeasonTrip {
	p := &plan.Plan{Trip: at.Trip.Name, TripID: at.Trip.ID, Depart: at.Way.Depart, Legs: at.Way.Legs, Days: at.Way.Days, Currency: out.Currency}
	for i := range c.sets {
		step := choice.Paths[i][k]
		p.Sets = append(p.Sets, step.Explained())
		if step.Action == plan.DoNotTake {
			out.Cost, out.Bound, out.Refused = out.Cost-step.Cost, out.Bound-step.Cost, out.Refused+1
		}
	}
	lists.Shop(p, at.Way, o.Today)
	lists.Spend(p, at.Way.Folder.Car.Costs)
	judge(p)
	t := plan.SeasonTrip{
		Trip: p.Trip, TripID: p.TripID, AtHome: at.AtHome, Depart: p.Depart, Back: p.Legs[len(p.Legs)-1].End,
		Verdict: p.Verdict, Headline: p.Headline(), Why: p.Why, Stopped: p.Apart[1].Amount, Life: lifeWorn(c.Folder, p), Sets: p.Sets,
	}
	t.Road, t.Days, _ = p.Driven()
	paid := func(day time.Time, amount float64) {
		if !quantity.Known(amount) {
			t.Unpriced++
			return
		}
		t.Purse += amount
		first := time.Date(day.Year(), day.Month(), 1, 0, 0, 0, 0, time.UTC)
		i := slices.IndexFunc(out.Months, func(m plan.Month) bool { return m.First.Equal(first) })
		if i < 0 {
			i, out.Months = len(out.Months), append(out.Months, plan.Month{First: first})
		}
		out.Months[i].Amount += amount
	}
	for _, e := range p.Budget {
		if e.Kind != plan.ForParts && (!at.AtHome || e.Kind == plan.ForLabor || e.Kind == plan.ForVisits) {
			paid(p.Depart, e.Amount)
		}
	}
	for _, it := range p.Shopping {
		if at.AtHome && it.Set == "" {
			continue // topping up at home is nobody's trip
		}
		day := p.Depart
		if !it.OrderBy.IsZero() {
			day = it.OrderBy
		}
		if pay := it.ToPay(); pay != 0 {
			paid(day, pay)
		}
		if !it.OnShelf && it.Set != "" {
			out.Orders = append(out.Orders, plan.SeasonOrder{Item: it, Trip: p.Trip})
		}
	}
	for _, s := range p.Sets {
		out.Work = append(out.Work, work(p, s, k)...)
	}
	return t
}

// work is what is done about a set on a stretch.
func work(p *plan.Plan, s plan.Set, k int) []plan.SeasonWork {
	d := s.Decision
	w := plan.SeasonWork{Trip: k, Day: p.Depart, Set: s.ID, Name: s.Name, Action: d.Action, Spare: d.Spare, Reason: d.Reason, AsIs: d.PAsIs}
	switch d.Action {
	case plan.Run, plan.Watch:
		return nil
	case plan.ReplaceAtStop:
		w.Where, w.Day = p.Legs[d.Leg].Name, p.Legs[d.Leg].End
	case plan.Bring, plan.ReplaceBefore, plan.DoNotTake:
	}
	if first := s.Points[s.First]; k > 0 && first.Measure.Info().Length {
		w.Decides, w.Place, w.Measure = &plan.Reading{Level: first.Start}, first.Where(), first.Measure
	}
	return []plan.SeasonWork{w}
}

// waiting is what the first replacement of a set costs more at other times.
func waiting(s *projection.Set, costs []float64) plan.Waiting {
	out := plan.Waiting{Set: s.ID, Name: s.Name}
	best := slices.Min(costs)
	for k, cost := range costs {
		if cost < plan.NotTaken && !math.IsInf(cost, 1) {
			out.Times = append(out.Times, plan.Wait{Trip: k, Extra: cost - best})
		}
	}
	return out
}

// changes says whether a set is ever replaced.
func changes(path []decision.Step) bool {
	return slices.ContainsFunc(path, func(s decision.Step) bool {
		return s.Action == plan.ReplaceBefore || s.Action == plan.ReplaceAtStop
	})
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
