package remedy

import (
	"cmp"
	"math"
	"slices"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// What the search for a safer plan may cost, and how much it tells of a set.
const (
	firstDraws = 2000 // of a first look, enough to tell a chance from a cap of 2 %
	mostLooks  = 9    // plans with those draws
	mostSure   = 3    // plans with all draws beside the first of each set
	mostTold   = 2    // changes told of a set
)

// Anew plans a trip with so many draws: what is done about each set and what it
// costs, without a word of why.
type Anew func(f *profiles.Folder, outing profiles.Trip, draws int) (*plan.Plan, error)

// Find completes a plan that is not safe, or that has a change due where
// no stop is, with the smallest changes that make it so: each is planned anew
// with few draws, then with those of the plan, the cheapest first.
func Find(p *plan.Plan, f *profiles.Folder, outing profiles.Trip, today time.Time, anew Anew) {
	bad := troubled(p)
	if len(bad) == 0 {
		return
	}
	s := search{plan: p, folder: f, outing: outing, today: today, anew: anew, bad: bad}
	var good []remedy
	for _, c := range s.candidates() {
		good = append(good, s.milder(c, min(firstDraws, s.plan.Draws))...)
	}
	if both, ok := s.together(good); ok {
		good = append(good, both)
	}
	s.tell(good)
	p.Tried = s.looks
}

// fullTrunk stands among the sets in trouble for a trunk that does not hold what is
// swapped on the way.
const fullTrunk = "trunk"

// troubled lists the sets that keep a plan from being safe or are due on the way.
func troubled(p *plan.Plan) []string {
	var out []string
	if p.Overfull() != "" {
		out = append(out, fullTrunk)
	}
	for _, s := range p.Sets {
		if s.Decision.Action == plan.DoNotTake || len(s.Stop) > 0 || s.Decision.Due != nil {
			out = append(out, s.ID)
		}
	}
	return out
}

// search is the search in progress.
type search struct {
	plan   *plan.Plan
	folder *profiles.Folder
	outing profiles.Trip
	today  time.Time // zero where the caller has no clock
	anew   Anew
	bad    []string
	looks  int
}

// remedy is a change, or several steps of one from the mildest on, and what it
// comes to once planned.
type remedy struct {
	steps []step
	heals []string // sets
	whole bool     // nothing else is left
	plan.Change
	forgone float64
}

// step is one change of a folder and a trip.
type step struct {
	plan.Change // its cost beside what the new plan spends
	apply       func(*profiles.Folder, *profiles.Trip) error
	forgone     float64 // entry fees of what is not driven then
}

// milder is the steps of a remedy that heal, each where it heals more sets than
// a milder one.
func (s *search) milder(c remedy, draws int) []remedy {
	var out []remedy
	healed := 0
	for _, one := range c.steps {
		if s.looks == mostLooks || healed == len(s.bad) {
			break
		}
		s.looks++
		if r, ok := s.try(remedy{steps: []step{one}}, draws); ok && len(r.heals) > healed {
			healed = len(r.heals)
			out = append(out, r)
		}
	}
	return out
}

// try plans a trip anew with all steps of a remedy.
func (s *search) try(r remedy, draws int) (remedy, bool) {
	folder, outing := s.folder.Clone(), s.outing.Clone()
	extra := 0.0
	for i, one := range r.steps {
		if one.apply(folder, &outing) != nil {
			return r, false
		}
		extra += one.Cost
		r.forgone += one.forgone
		if i == 0 {
			r.Change = one.Change
		} else {
			r.What += ", and " + one.What
			r.Date = earlier(r.Date, one.Date)
		}
	}
	p, err := s.anew(folder, outing, draws)
	if err != nil {
		return r, false
	}
	left := troubled(p)
	if slices.ContainsFunc(left, func(id string) bool { return !slices.Contains(s.bad, id) }) {
		return r, false // one trouble for another
	}
	r.heals = slices.DeleteFunc(slices.Clone(s.bad), func(id string) bool { return slices.Contains(left, id) })
	r.whole = len(left) == 0
	r.Cost = extra + p.Spend("") - s.plan.Spend("")
	if p.Unpriced() > s.plan.Unpriced() {
		r.Cost = quantity.Unknown()
	}
	r.Days = math.Max(0, ends(p)-ends(s.plan))
	return r, len(r.heals) > 0
}

// earlier is the earlier of two days that are given.
func earlier(a, b time.Time) time.Time {
	if a.IsZero() || !b.IsZero() && b.Before(a) {
		return b
	}
	return a
}

// ends is when a plan's trip ends, in days of a calendar of its own.
func ends(p *plan.Plan) float64 {
	return float64(p.Depart.Unix())/86400 + p.Legs[len(p.Legs)-1].EndDay
}

// together is the cheapest remedy of every set in one, where none heals all.
func (s *search) together(good []remedy) (remedy, bool) {
	slices.SortStableFunc(good, cheaper)
	if len(s.bad) < 2 || slices.ContainsFunc(good, func(r remedy) bool { return r.whole }) {
		return remedy{}, false
	}
	both, healed := remedy{}, map[string]bool{}
	for _, r := range good {
		if slices.ContainsFunc(r.heals, func(id string) bool { return !healed[id] }) {
			both.steps = append(both.steps, r.steps...)
			for _, id := range r.heals {
				healed[id] = true
			}
		}
	}
	if len(healed) < len(s.bad) {
		return remedy{}, false
	}
	s.looks++
	both, ok := s.try(both, min(firstDraws, s.plan.Draws))
	return both, ok && both.whole
}

// cheaper orders remedies by money, one of unknown price last, then by days: one
// that saves money counts as costing none, since it is not the smaller for it,
// and what was paid for and is not driven counts at its fee.
func cheaper(a, b remedy) int {
	price := func(r remedy) float64 {
		if !quantity.Known(r.Cost) {
			return math.Inf(1)
		}
		return max(0, math.Round(r.Cost)) + math.Round(r.forgone)
	}
	return cmp.Or(cmp.Compare(price(a), price(b)), cmp.Compare(a.Days, b.Days))
}

// tell confirms remedies, the cheapest first, and writes them into the plan:
// what each set and the whole plan need first, then what else there is.
func (s *search) tell(good []remedy) {
	slices.SortStableFunc(good, cheaper)
	told := map[string]int{}
	done := make([]bool, len(good))
	second := s.looks + mostSure
	for need := 1; need <= mostTold; need++ {
		for k, r := range good {
			wanted := r.whole && len(s.plan.Safer) < need && !s.plan.Safe
			for _, id := range r.heals {
				wanted = wanted || told[id] < need
			}
			if done[k] || !wanted || need > 1 && s.looks >= second {
				continue
			}
			done[k] = true
			if s.plan.Draws > firstDraws {
				s.looks++
				again, ok := s.try(remedy{steps: r.steps}, s.plan.Draws)
				if !ok {
					continue
				}
				r = again
			}
			s.write(r, told)
		}
	}
}

// write adds a confirmed remedy to the plan and to the sets that it heals; one
// of several steps to the plan alone.
func (s *search) write(r remedy, told map[string]int) {
	if r.whole && !s.plan.Safe && len(s.plan.Safer) < mostTold {
		s.plan.Safer = append(s.plan.Safer, r.Change)
	}
	for i := range s.plan.Sets {
		set := &s.plan.Sets[i]
		if !slices.Contains(r.heals, set.ID) || told[set.ID] == mostTold {
			continue
		}
		if told[set.ID]++; len(r.steps) == 1 {
			set.Decision.Safer = append(set.Decision.Safer, r.Change)
		}
	}
}
