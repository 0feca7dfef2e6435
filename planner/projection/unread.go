package projection

import (
	"math"
	"slices"

	"example.com/tripwear/planner/plan"
)

// Starts are the levels at which the draws put a set at the start of its trip.
type Starts struct {
	set    *Set
	sorted [][]float64 // by point
}

// Starts draws where a set starts, and leaves the set's own draws to others.
func (w *Worker) Starts(s *Set) Starts {
	out := Starts{set: s.undrawn()}
	for _, c := range w.Start(s.undrawn()).worn {
		out.sorted = append(out.sorted, slices.Sorted(slices.Values(c.Values)))
	}
	return out
}

// Level is the level that a share (0-1) of the draws has at a point at most.
func (st Starts) Level(point int, share float64) float64 {
	of := st.sorted[point]
	return of[min(len(of)-1, int(share*float64(len(of))))]
}

// undrawn is a copy of the set, and of its replacement, without draws.
func (s *Set) undrawn() *Set {
	out := s.Scaled(nil, 1)
	out.noise = nil
	if out.Replacement != nil {
		out.Replacement.noise = nil
	}
	return out
}

// AsRead is the set as if every open point had just been read at that share of
// its draws; it and its replacement are drawn anew.
func (st Starts) AsRead(share float64) *Set {
	out := st.set.undrawn()
	if out.Lifetime { // felt, not measured
		return out
	}
	for i := range out.Levels {
		p := &out.Levels[i]
		if !p.open {
			continue
		}
		p.read(st.Level(i, share))
	}
	return out
}

// read puts a point at a level as if a gauge had just read it.
func (p *Level) read(level float64) {
	p.Start, p.From, p.StartSD, p.Gauge, p.Prior = level, level, p.Reading, p.Reading, [2]float64{}
	p.wornRoad, p.wornCircuit, p.doubtful, p.tied = 0, 0, 0, 0
}

// FirstOpen is the open point that is the least above its limit, for the life
// that it had when new, in half of the draws.
func (st Starts) FirstOpen() int {
	first, least := 0, math.Inf(1)
	for i, p := range st.set.Levels {
		if left := (st.Level(i, 0.5) - p.Limit) / (p.New - p.Limit); p.open && left < least {
			first, least = i, left
		}
	}
	return first
}

// PastLimit says whether a point starts at its limit or beyond.
func (s *Set) PastLimit() bool {
	return !s.Lifetime && slices.ContainsFunc(s.Levels, func(p Level) bool { return p.Start <= p.Limit })
}

// WornOut says whether a point that a gauge reads starts at its limit or beyond.
func (s *Set) WornOut() bool {
	return slices.ContainsFunc(s.Levels, func(p Level) bool { return p.Measure.Info().Length && p.Start <= p.Limit })
}

// FailedUnnoticed is the chance that a bearing which nobody felt has failed
// within as much use as the trip's: what failed earlier has made itself heard.
// Engineering choice. It is 0 for what does not end by a failure.
func (w *Worker) FailedUnnoticed(s *Set) float64 {
	if !s.Lifetime {
		return 0
	}
	trip := 0.0
	for _, l := range s.Levels[0].Loss {
		trip += l
	}
	used := s.age.nominal()
	trip = min(trip, used)
	return 1 - w.life(s).Survive(used-trip, trip)
}

// open are the places that no reading and no good look speaks for.
func (s *Set) open() (places []string) {
	for _, p := range s.Levels {
		if p.open && !slices.Contains(places, p.Place) {
			places = append(places, p.Place)
		}
	}
	return places
}

// Unread says whether a look or a gauge could tell where one of the set's places
// stands, and none has spoken for it.
func (s *Set) Unread() bool {
	return s.Critical && !s.PerLeg && !s.Spec.Counted && len(s.Stop) == 0 && len(s.open()) > 0
}

// Outdated is a copy of a set in which what a gauge last read before a circuit
// day that was driven since counts as unread; nil where that is nothing.
func (s *Set) Outdated() *Set {
	if !s.Critical || len(s.Stop) > 0 {
		return nil
	}
	out := s.undrawn()
	old := false
	for i := range out.Levels {
		p := &out.Levels[i]
		p.open = p.Measure.Info().Length && p.wornCircuit > 0
		old = old || p.open
	}
	if !old {
		return nil
	}
	return out
}

// Reopened is a copy of a set in which what a gauge reads counts as not read yet:
// it stands where its last reading, its age and the miles since leave it. It is nil
// where a gauge reads nothing of it.
func (s *Set) Reopened() *Set {
	from := s
	if s.before != nil {
		from = s.before
	}
	out := from.undrawn()
	any := false
	for i := range out.Levels {
		p := &out.Levels[i]
		p.open = p.Measure.Info().Length || p.open && !s.Lifetime
		any = any || p.open
	}
	if !any || s.PerLeg || s.Lifetime || s.Spec.Counted {
		return nil
	}
	return out
}

// ForTheWorse is the set as if it had been read at the level that all but
// plan.TurnsAt of its draws are above.
func (st Starts) ForTheWorse() *Set {
	out := st.AsRead(plan.TurnsAt)
	if out.Lifetime {
		return out
	}
	out.before = st.set
	why := plan.Listed(st.set.open()) + " not read"
	if out.Read {
		why = "what was found does not speak for it"
	}
	out.Measured += "; " + why + ", so put at the low end that nine cases in ten are above"
	return out
}
