package planner

import (
	"slices"
	"strings"
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

// withReadings keeps the sets that were read just now. Where the query names
// sets, each of them must have been.
func withReadings(sets []*projection.Set, picked []int, query string, log []logbook.Entry) ([]int, error) {
	var have []int
	var lack []string
	for _, i := range picked {
		if len(readings(sets[i], log)) > 0 {
			have = append(have, i)
		} else {
			lack = append(lack, sets[i].Name)
		}
	}
	if len(have) == 0 || query != "" && len(lack) > 0 {
		what := "the logbook has no reading of the " + strings.Join(lack, ", ")
		if len(log) == 0 {
			return nil, profiles.Errors{{What: "the logbook has no row", Hint: "write what you measured with tripwear log add"}}
		}
		return nil, profiles.Errors{{
			What:     what + " from " + Newest(log).AddDate(0, 0, -1).Format("2 Jan 2006") + " on, its last day and the day before",
			Expected: "a reading taken in the paddock", Hint: "measure, and write it with tripwear log add",
		}}
	}
	return have, nil
}
