package workbook

import (
	"slices"

	"example.com/tripwear/planner/kind"
)

// others is a plain table for every measure that no other sheet shows; nil where
// a plan has none.
func others(v view, all worn) *sheet {
	var of []kind.Measure
	most := 0
	for _, w := range all {
		if w.other() && !slices.Contains(of, w.p.Measure) {
			of = append(of, w.p.Measure)
			most = max(most, len(v.points(w.p.Measure)))
		}
	}
	if len(of) == 0 {
		return nil
	}
	s := levelsOn(othersName, "As the car stands, nothing replaced on the way. "+marks, pairs(max(4, most), 34, 9.5, 13.5), v, all)
	for _, m := range of {
		s.measured(m)
	}
	return s.sheet
}
