package planner

import (
	"slices"

	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

// readings lists the logbook's readings of a set that are of the day of its last
// row or of the day before.
func readings(s *projection.Set, f *profiles.Folder) []string {
	since := trip.NewestDay(f).AddDate(0, 0, -1)
	var out []string
	for _, e := range f.Log {
		here := slices.ContainsFunc(s.Levels, func(p projection.Level) bool { return p.Place == e.Place && e.IsOf(s.Part) })
		if k, ok := profiles.KindRead(e.What); here && ok && k == s.Kind && !e.Date.Before(since) {
			out = append(out, e.String())
		}
	}
	return out
}
