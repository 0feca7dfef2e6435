package planner

import (
	"strconv"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

// How far from the plan it is varied, and in which steps: between two of them what
// wears least evenly, a rotor's face, is off by 1 %.
const (
	paceApart          = 0.05
	paceSteps          = 5
	slowPace, fastPace = 0.40, 1.05 // that a lap may be driven at
)

// Around adds to a plan what its trip takes with one thing changed at a time. What
// cannot be driven is left out.
func Around(p *plan.Plan, f *profiles.Folder, outing profiles.Trip) {
	m := trip.NewMachine(f).Nominal()
	home, err := trip.BeforeTrip(m, f)
	if err != nil {
		return
	}
	p.Varied.Pace = steps(paceApart, paceSteps, func(by float64) *plan.Variant {
		other := outing.Clone()
		for i := range other.Legs {
			if leg := &other.Legs[i]; leg.Kind == profiles.CircuitLeg {
				leg.Pace = strconv.FormatFloat(100*min(max(paceOf(p, outing, i)+by, slowPace), fastPace), 'g', -1, 64)
			}
		}
		return variant(m, *home, other)
	})
	p.Varied.Right, p.Varied.Left = variant(m.OneSided(-1), *home, outing), variant(m.OneSided(1), *home, outing)
}

// paceOf is the share of grip that a leg of the trip is planned at.
func paceOf(p *plan.Plan, outing profiles.Trip, i int) float64 {
	at := 0
	for _, l := range outing.Legs[:i] {
		at += max(1, l.Days)
	}
	return p.Legs[at].Pace
}

// steps runs the trip at values about the plan's, as many to each side until one
// cannot be driven.
func steps(apart float64, most int, run func(by float64) *plan.Variant) plan.Steps {
	runs := make([]*plan.Variant, 2*most+1)
	projection.Parallel(len(runs), func() func(int) {
		return func(i int) { runs[i] = run(float64(i-most) * apart) }
	})
	out := plan.Steps{Apart: apart}
	if runs[most] == nil {
		return out
	}
	first, last := most, most
	for first > 0 && runs[first-1] != nil {
		first--
	}
	for last < 2*most && runs[last+1] != nil {
		last++
	}
	out.Below = most - first
	for _, r := range runs[first : last+1] {
		out.Runs = append(out.Runs, *r)
	}
	return out
}

// variant is a trip by the model alone: what a logbook teaches multiplies every run
// alike.
func variant(m trip.Machine, home trip.Journey, outing profiles.Trip) *plan.Variant {
	on, err := home.Off(m, outing)
	if err != nil {
		return nil
	}
	out := &plan.Variant{Legs: on.Legs}
	for _, s := range projection.NewSets(on, projection.Posterior{}) {
		var points []plan.Point
		for _, l := range s.Levels {
			points = append(points, l.Point)
		}
		out.Points = append(out.Points, points)
	}
	return out
}
