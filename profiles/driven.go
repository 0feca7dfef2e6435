package profiles

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// Driven is the rows that the logbook lacks where a trip was driven, in one
// drive, from its first leg up to the last leg of each of the rows in upTo.
// What the logbook has of that drive is kept; where a row of it covers a leg
// that another one ends at, it is taken back and a shorter one added, so that
// no leg counts twice.
func (f *Folder) Driven(upTo []logbook.Entry) []logbook.Entry {
	if len(upTo) == 0 {
		return nil
	}
	trip := f.Trips[upTo[0].Text]
	start := func(e logbook.Entry) quantity.Length {
		_, last := trip.driven(e)
		return e.Odometer - trip.roads(1, last)
	}
	marks := slices.Clone(upTo)
	for i := range marks {
		marks[i].First = 1
	}
	reach := float64(trip.roads(1, trip.planned())) / 2 // drives of one trip start further apart
	for _, e := range f.Log {
		if e.What != logbook.Trip || e.Text != trip.ID || math.Abs(float64(start(e)-start(upTo[0]))) >= reach {
			continue
		}
		e.First, e.Last = trip.driven(e)
		marks = slices.DeleteFunc(marks, func(m logbook.Entry) bool { return m.Number == 0 && m.Last == e.Last })
		marks = append(marks, e)
	}
	slices.SortStableFunc(marks, func(a, b logbook.Entry) int { return cmp.Compare(a.Last, b.Last) })
	var out []logbook.Entry
	end := 0
	for _, e := range marks {
		first := max(e.First, end+1)
		moved := first != e.First
		end = max(end, e.Last)
		if e.Number > 0 && (!moved || first > e.Last) {
			continue
		}
		if e.Number > 0 {
			out = append(out, e.TakeBack(e.Date, ""))
		}
		e.Line, e.Number, e.First, e.Written = 0, 0, first, fmt.Sprintf("%s %d-%d", e.Text, first, e.Last)
		out = append(out, e)
	}
	return out
}
