package planner

import (
	"cmp"
	"maps"
	"slices"
	"strings"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

// RankCircuits orders every circuit of the folder by what it takes from a set
// (an id or words), or from everything at one corner of the car (LF, RF, LR, RR).
func RankCircuits(f *profiles.Folder, what string, drive Drive) (*plan.Ranking, error) {
	out := &plan.Ranking{Car: f.Car.Name}
	if len(f.Circuits) == 0 {
		_, err := trip.FindCircuit(f, "")
		return nil, err
	}
	m := trip.NewMachine(f)
	place := strings.ToUpper(strings.TrimSpace(what))
	if at, ok := corner[place]; ok {
		out.What = "everything at the " + at
	} else {
		place = ""
	}
	for _, id := range slices.Sorted(maps.Keys(f.Circuits)) {
		leg, err := drive.leg(m, f, id)
		if err != nil {
			out.Left = append(out.Left, f.Circuits[id].Name+": "+err.Error())
			continue
		}
		c, err := undecided(m, f, profiles.Trip{Legs: []profiles.Leg{leg}, Depart: trip.Latest(f, time.Time{})}, Options{}.orDefault())
		if err != nil {
			out.Left = append(out.Left, err.Error())
			continue
		}
		sets := c.sets
		if place == "" {
			picked, err := findSets(sets, what)
			if err != nil {
				return nil, err
			}
			var names []string
			for i := range sets {
				if !slices.Contains(picked, i) {
					sets[i] = nil
				} else {
					names = append(names, sets[i].Name)
				}
			}
			out.What = strings.Join(names, ", ")
		}
		day := c.Legs[0]
		r := plan.Ranked{ID: id, Name: day.Circuit, Known: known(f.Circuits[id]), LeftShare: day.LeftShare, LapTime: day.LapTime, Pace: day.Pace}
		r.PerHour, r.Most = takes(sets, place, float64(day.Sessions)*day.SessionTime/3600)
		out.Circuits = append(out.Circuits, r)
	}
	slices.SortStableFunc(out.Circuits, func(a, b plan.Ranked) int { return cmp.Compare(b.PerHour, a.PerHour) })
	return out, nil
}

func known(c profiles.Circuit) string {
	switch {
	case c.Trace != nil:
		return plan.ByTrack
	case c.Map != nil:
		return plan.ByMap
	case len(c.Corners) > 0:
		return plan.ByCorners
	}
	return plan.BySummary
}

// takes is the share of life that an hour takes: of each set its point that
// loses most, added up, with the name of the most. Where a place is given only
// points there count; what belongs to no corner never does.
func takes(sets []*projection.Set, place string, hours float64) (sum float64, most string) {
	top := 0.0
	for _, s := range sets {
		if s == nil || s.PerLeg {
			continue
		}
		worst, where := 0.0, ""
		for _, p := range s.Levels {
			if place != "" && p.Place != place {
				continue
			}
			if share := p.Loss[0] / (p.New - p.Limit) / hours; share > worst {
				worst, where = share, s.Name
				if at := strings.TrimSpace(p.Place + " " + p.Zone); len(s.Levels) > 1 {
					where += ", " + at
				}
			}
		}
		sum += worst
		if worst > top {
			top, most = worst, where
		}
	}
	return sum, most
}
