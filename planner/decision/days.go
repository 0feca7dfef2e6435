package decision

import (
	"slices"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

const needSteps = 9 // halvings, to a hundredth of a 32nd of an inch

// Days completes the decisions with the reading before each circuit day at which
// the day turns.
func Days(sets []*projection.Set, way *trip.Journey, d *projection.Draws) {
	projection.Parallel(len(sets), func() func(int) {
		w := projection.NewWorker(d, way.Usages)
		return func(i int) {
			s := sets[i]
			if !s.Critical || s.PerLeg || !s.Levels[0].Measure.Info().Length || s.Decision.Action == plan.DoNotTake {
				return
			}
			for j, l := range way.Legs {
				if l.Kind != profiles.CircuitLeg {
					continue
				}
				if n, ok := need(s, w, way, j); ok {
					s.Decision.Days = append(s.Decision.Days, n)
				}
			}
		}
	})
}

// need finds the level before a circuit day under which the day turns: where the
// day and the roads home leave more than the cap to chance, or the owner's margin
// is reached, or, with a spare along, where that one goes on. Each later day has a
// reading of its own. None is found where the plan expects no more than that
// anyway.
func need(s *projection.Set, w *projection.Worker, way *trip.Journey, day int) (plan.Need, bool) {
	fitted, along := onBefore(s.Decision, day)
	m := w.Midway(s, fitted, day)
	k := m.First()
	p, expect := s.Levels[k], m.Nominal[k]
	home, dropped := way, []int(nil)
	if !along {
		home, dropped = noLaterDays(way, day)
	}
	call := func(less float64) plan.Action {
		return onward(m.AsRead(less, dropped), w, home, day, s.Decision, along)
	}
	if expect <= p.Limit || !goesOn(call(0)) {
		return plan.Need{}, false
	}
	from, to := 0.0, expect-p.Limit
	for range needSteps {
		if mid := (from + to) / 2; goesOn(call(mid)) {
			from = mid
		} else {
			to = mid
		}
	}
	n := plan.Need{Leg: day, Place: p.Place, Zone: p.Zone, Measure: p.Measure, Under: expect - to, Expect: expect, Action: plan.DoNotTake}
	if along {
		n.Action = plan.Bring
		n.Under = max(n.Under, s.FitsBelow(k, day, way.Legs))
	}
	if expect > p.Margin {
		n.Under = max(n.Under, p.Margin)
	}
	n.Chance = m.Chance(k, n.Under)
	return n, n.Under < expect
}

// noLaterDays is the trip with the circuit days after one left out, and their legs.
func noLaterDays(way *trip.Journey, day int) (*trip.Journey, []int) {
	home := *way
	home.Legs = slices.Clone(way.Legs)
	var dropped []int
	for j := day + 1; j < len(home.Legs); j++ {
		if l := &home.Legs[j]; l.Kind == profiles.CircuitLeg {
			l.Kind, dropped = profiles.StopLeg, append(dropped, j)
		}
	}
	return &home, dropped
}

// onBefore says before which leg a new set has gone on by a day as decided, -1
// where none has, and whether a spare is still along.
func onBefore(d plan.Decision, day int) (fitted int, along bool) {
	fitted = -1
	switch d.Action {
	case plan.ReplaceBefore:
		fitted = 0
	case plan.ReplaceAtStop:
		if d.Leg < day {
			fitted = d.Leg + 1
		}
	case plan.Run, plan.Watch, plan.Bring, plan.DoNotTake:
	}
	for j, on := range d.On[:min(day+1, len(d.On))] {
		if on > 0.5 {
			return j, false
		}
	}
	return fitted, d.On != nil
}

// onward is what is done about a set as read before a day: it goes on, now with
// what is decided or a stop ahead, or its spare goes on first, or there is
// nothing that keeps the rest of the trip within the cap.
func onward(s *projection.Set, w *projection.Worker, way *trip.Journey, day int, d plan.Decision, along bool) plan.Action {
	s.After = w.Outcome(s, 0, false)
	c := newChooser(s, w, way, time.Time{})
	limit := float64(c.safety.Cap)
	if s.PastLimit() {
		limit = -1
	}
	if c.asIs.atEnd(true) <= limit {
		return plan.Watch
	}
	if along {
		if op, ok := c.bring(c.asIs); ok && op.Leg != day && op.PUnsafe <= limit {
			return plan.Watch
		}
		return plan.Bring
	}
	if d.Action == plan.ReplaceAtStop && d.Leg > day && c.replaceAt(d.Leg).PUnsafe <= limit {
		return plan.Watch
	}
	return plan.DoNotTake
}
