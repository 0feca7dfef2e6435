package planner

import (
	"math"
	"strconv"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/duty"
)

// How far from the plan it is varied, and in which steps: between two of them what
// wears least evenly, a rotor's face, is off by 1 %.
const (
	paceApart          = 0.05
	paceSteps          = 5
	slowPace, fastPace = 0.40, 1.05 // that a lap may be driven at
)

// Between two of these a zone of tread is off by 2 %.
const (
	camberApart = 1.0 / 180 * math.Pi
	toeApart    = 0.1 / 180 * math.Pi
	setSteps    = 3
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
	for i, at := range duty.Places {
		set := f.Car.Alignment[at.String()]
		p.Varied.Set[i] = plan.Wheel{Place: at.String(), Camber: float64(set.Camber), Toe: float64(set.Toe)}
	}
	aligned := func(apart float64, by func(set *profiles.Alignment, more quantity.Angle)) plan.Steps {
		return steps(apart, setSteps, func(more float64) *plan.Variant {
			other, on := f.Clone(), *home
			for _, w := range p.Varied.Set {
				set := other.Car.Alignment[w.Place]
				by(&set, quantity.Angle(more))
				other.Car.Alignment[w.Place] = set
			}
			on.Folder = other
			return variant(m.With(other), on, outing)
		})
	}
	if len(f.Car.Alignment) > 0 {
		p.Varied.Camber = aligned(camberApart, func(set *profiles.Alignment, more quantity.Angle) { set.Camber += more })
		p.Varied.Toe = aligned(toeApart, func(set *profiles.Alignment, more quantity.Angle) { set.Toe += more })
	}
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
