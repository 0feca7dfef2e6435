package planner

import (
	"cmp"
	"math"
	"slices"
	"time"

	"example.com/tripwear/planner/decision"
	"example.com/tripwear/planner/lists"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/season"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles/quantity"
)

// agenda is a season in the making: what is done, ordered and paid, stretch by
// stretch.
type agenda struct {
	*plan.Season
	*outset
	today time.Time
	draws int
}

// add adds a stretch as decided.
func (a *agenda) add(at trip.Stretch, k int, choice season.Choice) {
	p := &plan.Plan{Car: a.Car, Trip: at.Trip.Name, TripID: at.Trip.ID, Depart: at.Way.Depart, Legs: at.Way.Legs, Days: at.Way.Days, Currency: a.Currency, Draws: a.draws}
	for i := range a.sets {
		step := choice.Paths[i][k]
		p.Sets = append(p.Sets, step.Explained())
		if step.Action == plan.DoNotTake {
			a.Cost, a.Bound, a.Refused = a.Cost-step.Cost, a.Bound-step.Cost, a.Refused+1
		}
	}
	lists.Shop(p, at.Way, a.today)
	lists.Spend(p, at.Way.Folder.Car.Costs)
	p.Swaps = at.Way.Swaps
	lists.Pack(p, at.Way.Folder, at.Way.Carried())
	judge(p)
	t := plan.SeasonTrip{
		Trip: p.Trip, TripID: p.TripID, AtHome: at.AtHome, Depart: p.Depart, Back: p.Legs[len(p.Legs)-1].End,
		Verdict: p.Verdict, Headline: p.Headline(), Why: p.Why, Stopped: p.Apart[1].Amount, Life: lists.LifeWorn(a.Folder, p), Sets: p.Sets, Plan: p,
	}
	t.Road, t.Days, _ = p.Driven()
	for _, e := range p.Budget {
		if e.Kind != plan.ForParts && (!at.AtHome || e.Kind == plan.ForLabor || e.Kind == plan.ForVisits) {
			a.pay(&t, p.Depart, e.Amount)
		}
	}
	for _, it := range p.Shopping {
		switch {
		case it.OnShelf, at.AtHome && it.Set == "": // topping up at home is nobody's trip
		case it.Set == "":
			a.pay(&t, p.Depart, it.Price)
		case it.Set != "":
			a.Orders = append(a.Orders, plan.SeasonOrder{Item: it, Trip: p.Trip, Of: k})
		}
	}
	for _, s := range p.Sets {
		a.Work = append(a.Work, work(p, s, k)...)
	}
	a.Calendar = append(a.Calendar, t)
}

// pay takes an amount out of the purse on a day, for a trip.
func (a *agenda) pay(t *plan.SeasonTrip, day time.Time, amount float64) {
	if !quantity.Known(amount) {
		t.Unpriced++
		return
	}
	t.Purse += amount
	first := time.Date(day.Year(), day.Month(), 1, 0, 0, 0, 0, time.UTC)
	i, ok := slices.BinarySearchFunc(a.Months, first, func(m plan.Month, day time.Time) int { return m.First.Compare(day) })
	if !ok {
		a.Months = slices.Insert(a.Months, i, plan.Month{First: first})
	}
	a.Months[i].Amount += amount
}

// together is how many days before its last day a part is ordered at the most, to
// come with others. Engineering choice.
const together = 7

// order puts the orders by date, those of a week in one, and pays them.
func (a *agenda) order() {
	last := func(o plan.SeasonOrder) time.Time { // when it does not matter, when it is wanted
		if o.OrderBy.IsZero() {
			return a.Calendar[o.Of].Depart
		}
		return o.OrderBy
	}
	slices.SortStableFunc(a.Orders, func(x, y plan.SeasonOrder) int { return last(x).Compare(last(y)) })
	var batch time.Time // of one month, as the money is
	for i := range a.Orders {
		o := &a.Orders[i]
		if day := last(*o); !o.OrderBy.IsZero() {
			if batch.IsZero() || day.After(batch.AddDate(0, 0, together)) || day.Month() != batch.Month() {
				batch = day
			}
			o.Day = batch
		}
		a.pay(&a.Calendar[o.Of], cmp.Or(o.Day, last(*o)), o.Price)
	}
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

// wait adds what the first replacement of a set that is replaced costs more at
// other times, by itself.
func (a *agenda) wait(s *projection.Set, path []decision.Step, costs []float64) {
	first := slices.IndexFunc(path, decision.Step.Replaces)
	if first < 0 {
		return
	}
	out := plan.Waiting{Set: s.ID, Name: s.Name, Decided: first}
	for k, cost := range costs {
		if cost < plan.NotTaken && !math.IsInf(cost, 1) {
			out.Times = append(out.Times, plan.Wait{Trip: k, Extra: cost - costs[first]})
		}
	}
	if len(out.Times) > 1 {
		a.Waits = append(a.Waits, out)
	}
}
