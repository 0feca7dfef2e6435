package planner

import (
	"slices"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

// stay is the weekend with a number of days, decided.
type stay struct {
	days int
	*outset
	paddock bool // the car is there already
}

// holdsOut is the rule of Lasts.
func holdsOut(s *projection.Set, safety float64) bool {
	return len(s.Stop) == 0 && !s.PastLimit() && 1-s.Decision.PAsIs >= plan.LastsChance && s.Unnoticed <= safety
}

// survival is the chance that a set lasts 0 to MostDays days with all its
// roads: the roads come first, so that one projection tells of every number
// of days.
func survival(m trip.Machine, f *profiles.Folder, weekend profiles.Trip, visit int, picked []int, o Options) ([][]float64, error) {
	trip := weekend.Clone()
	days := trip.Legs[visit]
	days.Days = plan.MostDays
	trip.Legs = append(slices.Delete(trip.Legs, visit, visit+1), days)
	roads := len(trip.Legs) - 1
	c, err := undecided(m, f, trip, o)
	if err != nil {
		return nil, err
	}
	out := make([][]float64, len(picked))
	d := projection.NewDraws(o.Draws, o.Seed)
	projection.Parallel(len(picked), func() func(int) {
		w := projection.NewWorker(d, c.Usages)
		return func(k int) {
			for _, band := range w.Outcome(c.sets[picked[k]], 0, false)[roads-1:] {
				out[k] = append(out[k], 1-band.PLimit)
			}
		}
	})
	return out, nil
}
