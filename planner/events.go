package planner

import (
	"cmp"
	"math"
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/lists"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/season"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

// Trips planned while picking, in seasons, and with so many draws each. Engineering
// choices.
const mostTrips, eventDraws = 1_200, 1_000

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
	planned := func(set []int, o Options) (*plan.Season, error) {
		var chosen []profiles.Trip
		for _, e := range set {
			chosen = append(chosen, trips[e])
		}
		return asWritten(f, chosen, o)
	}
	picks := season.Picks(len(trips), out.Weekends, clash, least)
	money := out.Spend == 0 && out.Sparing == ""
	var at func(season.Pick, float64) float64
	if money {
		at = func(p season.Pick, cost float64) float64 { return least(p.Events) + cost/sum(p.Events, hours) }
	}
	value := func(set []int) (season.Planned, error) {
		s, err := planned(set, rough)
		if err != nil {
			return season.Planned{}, err
		}
		out.Tried++
		purse := 0.0
		for _, month := range s.Months {
			purse += month.Amount
		}
		got := season.Planned{Cost: s.Cost, Value: least(set)}
		switch {
		case !s.Safe:
			got = season.Planned{Cost: math.Inf(1), Value: math.Inf(1)}
		case out.Spend > 0 && purse > out.Spend:
			got.Value = math.Inf(1)
		case money:
			got.Value += s.Cost / sum(set, hours)
		}
		return got, nil
	}
	most := mostTrips
	if out.Spend > 0 {
		most /= 4 // where nothing but the hours bounds a set, more do not prove more
		sure, err := afford(all, clash, value)
		if err != nil {
			return &out, err
		}
		for i, p := range picks {
			if slices.Equal(p.Events, sure) {
				continue
			}
			picks[i].Turn = 1
			if sum(p.Events, worn) > out.Spend { // in the long run as much is bought as is worn off
				picks[i].Turn = 2
			}
		}
	}
	best, proved, err := season.Best(picks, most, at, value)
	if out.Proved = proved; err != nil || best < 0 {
		return &out, err
	}
	for _, e := range picks[best].Events {
		all[e].Picked = true
	}
	out.Season, err = planned(picks[best].Events, o)
	return &out, err
}

// afford takes events one by one, those first that cost least by the hour, where all
// taken will still do.
func afford(all []plan.Event, clash func(a, b int) bool, value func(set []int) (season.Planned, error)) ([]int, error) {
	order := make([]int, len(all))
	for e := range order {
		order[e] = e
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(all[a].Hour(), all[b].Hour()) })
	var taken []int
	for _, e := range order {
		if slices.ContainsFunc(taken, func(other int) bool { return clash(other, e) }) {
			continue
		}
		set := slices.Sorted(slices.Values(append(slices.Clone(taken), e)))
		got, err := value(set)
		if err != nil {
			return nil, err
		}
		if !math.IsInf(got.Value, 1) {
			taken = set
		}
	}
	return taken, nil
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
