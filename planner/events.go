package planner

import (
	"math"
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/lists"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/season"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

// Sets planned while picking, and with so many draws each. Engineering choices.
const mostSeasons, eventDraws = 40, 1_000

// Events picks which of several trips to go to: so many, or what a purse is good
// for, cheapest by the hour on circuit or sparing a wheel. Sets are planned as
// seasons, those first that promise most, until none that is left can be better.
func Events(f *profiles.Folder, trips []profiles.Trip, ask plan.Events, o Options) (*plan.Events, error) {
	o = o.orDefault()
	out, rough := ask, o
	rough.Draws = min(o.Draws, eventDraws)
	m := trip.NewMachine(f)
	for _, t := range trips {
		p, err := outlined(m, f, t, rough)
		if err != nil {
			return nil, err
		}
		out.Candidates = append(out.Candidates, event(f, p, ask.Sparing))
	}
	all := out.Candidates
	sum := func(set []int, of func(plan.Event) float64) float64 {
		x := 0.0
		for _, e := range set {
			x += of(all[e])
		}
		return x
	}
	hours := func(e plan.Event) float64 { return e.Hours }
	fixed := func(e plan.Event) float64 { return e.Fixed }
	worn := func(e plan.Event) float64 { return e.Fixed + e.Life }
	least := func(set []int) float64 { // what no season of them is below
		switch {
		case out.Spend > 0 && sum(set, fixed) > out.Spend:
			return math.Inf(1)
		case out.Spend > 0:
			return -sum(set, hours)
		case out.Sparing != "":
			return sum(set, func(e plan.Event) float64 { return e.Share }) / sum(set, hours)
		}
		return sum(set, worn) / sum(set, hours)
	}
	clash := func(a, b int) bool { return !all[a].Depart.After(all[b].Back) && !all[b].Depart.After(all[a].Back) }
	planned := func(p season.Pick, o Options) (*plan.Season, error) {
		var chosen []profiles.Trip
		for _, e := range p.Events {
			chosen = append(chosen, trips[e])
		}
		return asWritten(f, chosen, o)
	}
	picks := season.Picks(len(trips), out.Weekends, clash, least)
	best, proved, err := season.Best(picks, mostSeasons, func(p season.Pick) (float64, error) {
		s, err := planned(p, rough)
		if err != nil {
			return 0, err
		}
		out.Tried++
		purse := 0.0
		for _, month := range s.Months {
			purse += month.Amount
		}
		switch {
		case !s.Safe, out.Spend > 0 && purse > out.Spend:
			return math.Inf(1), nil
		case out.Spend > 0, out.Sparing != "":
			return p.Least, nil
		}
		return p.Least + s.Cost/sum(p.Events, hours), nil
	})
	if err != nil || best < 0 {
		return &out, err
	}
	for _, e := range picks[best].Events {
		all[e].Picked = true
	}
	out.Proved = proved
	out.Season, err = planned(picks[best], o)
	return &out, err
}

// event is what a trip gives and takes by itself.
func event(f *profiles.Folder, p *plan.Plan, sparing string) plan.Event {
	e := plan.Event{
		Trip: p.Trip, TripID: p.TripID, Depart: p.Depart, Back: p.Legs[len(p.Legs)-1].End,
		Fixed: p.Spend(plan.ForFees) + p.Spend(plan.ForFuel) + p.Spend(plan.ForNights), Life: lists.LifeWorn(f, p), Risk: p.Apart[1].Amount,
	}
	for _, l := range p.Legs {
		e.Hours += float64(l.Sessions) * l.SessionTime / 3600
	}
	for _, s := range p.Sets {
		for _, point := range s.Points {
			if share := lists.Taken(point) / (point.New - point.Limit); point.Measure == kind.Tread {
				if share > e.Tread {
					e.Wheel, e.Tread = point.Place, share
				}
				if point.Place == sparing {
					e.Share = max(e.Share, share)
				}
			}
		}
	}
	return e
}

// Drivable are the trips with time on a circuit, of which events are picked.
func Drivable(trips []profiles.Trip) []profiles.Trip {
	return slices.DeleteFunc(slices.Clone(trips), func(t profiles.Trip) bool {
		return !slices.ContainsFunc(t.Legs, func(l profiles.Leg) bool { return l.Kind == profiles.CircuitLeg })
	})
}
