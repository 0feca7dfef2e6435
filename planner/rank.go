package planner

import (
	"cmp"
	"maps"
	"slices"
	"strings"
	"time"

	"example.com/tripwear/profiles"
)

// Ranking orders a folder's circuits by what an hour on each takes, most first.
type Ranking struct {
	Car      string   `json:"car"`
	What     string   `json:"what"` // in words: the set, or the corner of the car
	Circuits []Ranked `json:"circuits"`
	Left     []string `json:"left"` // circuits that the car cannot be driven on as written, each with the reason
}

// Ranked is one circuit's place in it.
type Ranked struct {
	ID        string  `json:"id"`
	Name      string  `json:"name"`
	Known     string  `json:"known"`
	LeftShare float64 `json:"left_share"`
	LapTime   float64 `json:"lap_time"`
	Pace      float64 `json:"pace"`
	PerHour   float64 `json:"per_hour"` // share of life from new to the limit, an hour; of a corner, of its parts together
	Most      string  `json:"most"`     // the part that loses most of it, and where
}

// RankCircuits orders every circuit of the folder by what it takes from a set
// (an id or words), or from everything at one corner of the car (LF, RF, LR, RR).
func RankCircuits(f *profiles.Folder, what string, drive Drive) (*Ranking, error) {
	out := &Ranking{Car: f.Car.Name}
	if len(f.Circuits) == 0 {
		_, err := findCircuit(f, "")
		return nil, err
	}
	m := build(f)
	place := strings.ToUpper(strings.TrimSpace(what))
	if at, ok := corner[place]; ok {
		out.What = "everything at the " + at
	} else {
		place = ""
	}
	for _, id := range slices.Sorted(maps.Keys(f.Circuits)) {
		leg := drive.leg(f, id)
		c, err := undecided(m, f, profiles.Trip{Legs: []profiles.Leg{leg}, Depart: latest(f, time.Time{})}, Options{}.orDefault())
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
		day := c.legs[0]
		r := Ranked{ID: id, Name: day.Circuit, Known: known(f.Circuits[id]), LeftShare: day.LeftShare, LapTime: day.LapTime, Pace: day.Pace}
		r.PerHour, r.Most = takes(sets, place, float64(day.Sessions)*day.SessionTime/3600)
		out.Circuits = append(out.Circuits, r)
	}
	slices.SortStableFunc(out.Circuits, func(a, b Ranked) int { return cmp.Compare(b.PerHour, a.PerHour) })
	return out, nil
}

func known(c profiles.Circuit) string {
	switch {
	case c.Trace != nil:
		return ByTrack
	case len(c.Corners) > 0:
		return ByCorners
	}
	return BySummary
}

// takes is the share of life that an hour takes: of each set its point that
// loses most, added up, with the name of the most. Where a place is given only
// points there count; what belongs to no corner never does.
func takes(sets []*set, place string, hours float64) (sum float64, most string) {
	top := 0.0
	for _, s := range sets {
		if s == nil || s.alone {
			continue
		}
		worst, where := 0.0, ""
		for _, p := range s.points {
			if place != "" && p.Place != place {
				continue
			}
			if share := p.Loss[0] / (p.New - p.Limit) / hours; share > worst {
				worst, where = share, s.Name
				if at := strings.TrimSpace(p.Place + " " + p.Zone); len(s.points) > 1 {
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
