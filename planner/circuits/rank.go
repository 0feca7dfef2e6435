package circuits

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"example.com/tripwear/planner/learning"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

// Rank orders every circuit of the folder by what it takes from a set
// (an id or words), or from everything at one corner of the car (LF, RF, LR, RR).
// Nothing of a circuit is kept but its row: of a folder that was loaded lean, each
// is read when its turn comes.
func Rank(f *profiles.Folder, what string, drive Drive) (*plan.Ranking, error) {
	if len(f.Circuits) == 0 {
		_, err := trip.FindCircuit(f, "")
		return nil, err
	}
	m := trip.NewMachine(f)
	home, err := trip.BeforeTrip(m, f)
	if err != nil {
		return nil, err
	}
	learned, err := learning.Learn(m, home)
	if err != nil {
		return nil, err
	}
	r := ranking{home, learned.Posterior, drive, nil, ""}
	out := &plan.Ranking{Car: f.Car.Name}
	if place := strings.ToUpper(strings.TrimSpace(what)); projection.Corner[place] != "" {
		r.place, out.What = place, "everything at the "+projection.Corner[place]
	} else if r.picked, out.What, err = pick(projection.NewSets(home, r.posterior), what); err != nil {
		return nil, err
	}

	ids := slices.Sorted(maps.Keys(f.Circuits))
	rows, errs := make([]plan.Ranked, len(ids)), make([]error, len(ids))
	projection.Parallel(len(ids), func() func(int) {
		return func(i int) { rows[i], errs[i] = r.row(m.Nominal(), ids[i]) }
	})
	for i, err := range errs {
		if err != nil {
			out.Left = append(out.Left, err.Error())
		} else {
			out.Circuits = append(out.Circuits, rows[i])
		}
	}
	slices.SortStableFunc(out.Circuits, func(a, b plan.Ranked) int { return cmp.Compare(b.PerHour, a.PerHour) })
	return out, nil
}

// ranking is what every circuit is asked.
type ranking struct {
	home      *trip.Journey
	posterior projection.Posterior
	drive     Drive
	picked    []string // ids of sets, or
	place     string   // a corner of the car
}

// pick finds sets by an id or words.
func pick(sets []*projection.Set, what string) (ids []string, names string, err error) {
	found, err := projection.Find(sets, what)
	if err != nil {
		return nil, "", err
	}
	var words []string
	for _, i := range found {
		ids, words = append(ids, sets[i].ID), append(words, sets[i].Name)
	}
	return ids, strings.Join(words, ", "), nil
}

// row is what a day on one circuit takes.
func (r *ranking) row(m trip.Machine, id string) (plan.Ranked, error) {
	// A folder and a journey that hold this one circuit.
	home, folder := *r.home, *r.home.Folder
	c, err := folder.Circuit(id)
	if err != nil {
		return plan.Ranked{}, err
	}
	folder.Circuits = map[string]profiles.Circuit{id: c}
	f := &folder
	home.Folder = f
	leg, err := r.drive.leg(m, f, id)
	if err != nil {
		return plan.Ranked{}, fmt.Errorf("%s: %w", c.Name, err)
	}
	on, err := home.Off(m, profiles.Trip{Legs: []profiles.Leg{leg}, Depart: trip.Latest(f, time.Time{})})
	if err != nil {
		return plan.Ranked{}, err
	}
	sets := projection.NewSets(on, r.posterior)
	if r.place == "" {
		sets = slices.DeleteFunc(sets, func(s *projection.Set) bool { return !slices.Contains(r.picked, s.ID) })
	}
	day := on.Legs[0]
	out := plan.Ranked{ID: id, Name: day.Circuit, Known: known(c), LeftShare: day.LeftShare, LapTime: day.LapTime, Pace: day.Pace}
	out.PerHour, out.Most = takes(sets, r.place, float64(day.Sessions)*day.SessionTime/3600)
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
		if s.PerLeg {
			continue
		}
		worst, p := hardest(s, place, hours)
		sum += worst
		if worst > top {
			top, most = worst, s.Name
			if len(s.Levels) > 1 {
				most += ", " + p.Where()
			}
		}
	}
	return sum, most
}

// hardest is the point of a set, at a place where one is given, of whose life an
// hour takes most, and that share; nil where none loses any.
func hardest(s *projection.Set, place string, hours float64) (most float64, at *projection.Level) {
	for i := range s.Levels {
		p := &s.Levels[i]
		if share := p.Loss[0] / (p.New - p.Limit) / hours; (place == "" || p.Place == place) && share > most {
			most, at = share, p
		}
	}
	return most, at
}
