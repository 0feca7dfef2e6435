package planner

import (
	"slices"
	"time"

	"example.com/tripwear/planner/projection"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// Newest is the day of the logbook's last row; zero where it has none.
func Newest(log []logbook.Entry) time.Time {
	var newest time.Time
	for _, e := range log {
		if e.Date.After(newest) {
			newest = e.Date
		}
	}
	return newest
}

// readings lists the logbook's readings of a set that are of the day of its last
// row or of the day before.
func readings(s *projection.Set, log []logbook.Entry) []string {
	since := Newest(log).AddDate(0, 0, -1)
	var out []string
	for _, e := range log {
		here := slices.ContainsFunc(s.Levels, func(p projection.Level) bool { return p.Place == e.Place })
		if k, ok := profiles.KindRead(e.What); here && ok && k == s.Kind && !e.Date.Before(since) {
			out = append(out, e.String())
		}
	}
	return out
}
