package learning

import (
	"math"
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/reliability"
)

// CircuitDay is what a usual day on a circuit takes.
type CircuitDay struct {
	Name  string
	Takes *kind.Wear
}

// When a question about a corner is settled: the chance of the right answer, and
// after how many days on one circuit at most. Engineering choices.
const (
	settled      = 0.9
	settlingDays = 12
)

// Settle finds for every corner whose bearings failed which circuit would tell
// soonest whether the corner itself is wrong, or whether the last repair cured it,
// by a new bearing.
func (l *Evidence) Settle(hubs []plan.HubTeaching, days []CircuitDay) {
	for i := range hubs {
		h := &hubs[i]
		on := l.Way.At(kind.Bearing, h.Place)
		c, ok := l.corners[hubAt(h.Place)]
		if !ok || len(h.Bad) == 0 || on.Entry == nil {
			continue
		}
		wrong, sound := c.uncured.Split()
		chance := c.odd
		if c.repaired {
			wrong, sound, chance = c.uncured, c.mended, 1-c.cured
		} else if len(h.Bad) < 2 {
			continue
		}
		of := kind.Bearing.Points(on)[0].Of
		for _, day := range days {
			if s := settling(wrong, sound, chance, of(day.Takes)); s != nil && (h.Settles == nil || s.Days < h.Settles.Days) {
				s.Circuit, h.Settles = day.Name, s
			}
		}
	}
}

// settling is after how many days that take so much a new bearing tells which of
// two beliefs is right; nil where that is known already, or not told by any.
func settling(wrong, sound reliability.Scale, chance, day float64) *plan.Settling {
	if math.Max(chance, 1-chance) >= settled {
		return nil
	}
	w, s := wrong.At(0), sound.At(0)
	for n := 1; n <= settlingDays; n++ {
		t := plan.Settling{Days: n, Wrong: w.Survive(day * float64(n)), Sound: s.Survive(day * float64(n))}
		t.Right = math.Max(chance*t.Wrong, (1-chance)*t.Sound) + math.Max(chance*(1-t.Wrong), (1-chance)*(1-t.Sound))
		if t.Right >= settled {
			return &t
		}
	}
	return nil
}

// hubAt is the set of the bearing at a place.
func hubAt(place string) string {
	sets := profiles.Bearing.Info().Sets
	return sets[slices.IndexFunc(sets, func(s profiles.Set) bool { return s.At[0] == place })].ID
}

// asked is what the circuit days driven took from a corner's bearing; that of a
// usual day where none was.
func (l *Evidence) asked(place string) float64 {
	on := l.Way.At(kind.Bearing, place)
	if on.Entry == nil {
		return 0
	}
	of, sum := kind.Bearing.Points(on)[0].Of, 0.0
	for _, d := range l.Way.Past.Drives {
		if d.Visit >= 0 {
			sum += of(d.Usage.Nominal())
		}
	}
	if sum == 0 {
		return of(&l.Way.PerDay)
	}
	return sum
}
