package season

import (
	"time"

	"example.com/tripwear/planner/plan"
)

// Within is the choice that keeps to a budget a month, saved up from a day on to the
// last trip; where none is found that does without leaving the car at home more often,
// the one that is free of it.
func (s Season) Within(budget float64, from, last time.Time, free Choice) (*plan.SeasonBudget, Choice) {
	months := 1
	if s.First = from; last.After(from) {
		months += 12*(last.Year()-from.Year()) + int(last.Month()-from.Month())
	}
	for m := range months {
		s.Spend = append(s.Spend, float64(budget*float64(m+1)))
	}
	s.Most = free.Cost + plan.NotTaken/2
	choice := Choose(s)
	holds := choice.Paths != nil
	proved := holds || choice.Bound >= s.Most
	if !holds {
		choice = free
	}
	return &plan.SeasonBudget{Month: budget, From: from, Holds: holds, Proved: proved, More: choice.Cost - free.Cost, Takes: s.takes(choice)}, choice
}

// takes is the least budget a month that a choice keeps to.
func (s *Season) takes(c Choice) float64 {
	spent := make([]float64, len(s.Spend))
	for i, path := range c.Paths {
		for k := range path {
			for _, u := range s.uses(k, s.Sets[i].Part, &path[k]) {
				if m := u.row - 2*len(s.Trunk); m >= 0 && m < len(spent) {
					spent[m] += u.amount
				}
			}
		}
	}
	most := 0.0
	for m, sum := range spent {
		most = max(most, sum/float64(m+1))
	}
	return most
}
