package logbook

import (
	"fmt"
	"strconv"
	"time"
)

// Target is the number of the row that a row takes back; 0 where it takes none.
func (e Entry) Target() int {
	if e.What != TakenBack {
		return 0
	}
	return int(e.Value)
}

// TakeBack is the row that takes another one back. It stands at the other's
// odometer, which shows whether rows were moved since.
func (e Entry) TakeBack(day time.Time, note string) Entry {
	return Entry{
		Date: day, Odometer: e.Odometer, Mark: e.Mark, What: TakenBack,
		Value: float64(e.Number), Written: strconv.Itoa(e.Number), Note: note,
	}
}

// Undone says of every row that is taken back which row does so, both by their
// numbers. Rows come as the file has them, numbered from 1. A row that takes
// back one that takes back brings the first to life again.
func Undone(rows []Entry) (by map[int]int, faults []Fault) {
	by = map[int]int{}
	for i := len(rows) - 1; i >= 0; i-- {
		e := rows[i]
		n := e.Target()
		if e.What != TakenBack {
			continue
		}
		fault := func(what, expected, hint string) {
			faults = append([]Fault{{Line: e.Line, Column: 1, Field: "value", What: what, Expected: expected, Hint: hint}}, faults...)
		}
		const moved = "rows were sorted or removed: put them back in the order in which they were added, numbers are places in the file"
		switch {
		case n < 1 || n > len(rows):
			fault(fmt.Sprintf("there is no row %d to take back", n), fmt.Sprintf("1 to %d", e.Number-1), "tripwear log show numbers the rows")
		case n >= e.Number:
			fault(fmt.Sprintf("row %d takes back row %d, which does not stand before it", e.Number, n), "an earlier row", moved)
		case rows[n-1].Odometer != e.Odometer:
			fault(fmt.Sprintf("row %d takes back row %d at %s, which is at %s", e.Number, n, e.Mark, rows[n-1].Mark), "the odometer of the row it takes back", moved)
		case by[e.Number] == 0:
			by[n] = e.Number
		}
	}
	return by, faults
}

// Live is the rows that play a part: none that is taken back, and none that
// takes one back.
func Live(rows []Entry) ([]Entry, []Fault) {
	by, faults := Undone(rows)
	live := make([]Entry, 0, len(rows))
	for _, e := range rows {
		if e.What != TakenBack && by[e.Number] == 0 {
			live = append(live, e)
		}
	}
	return live, faults
}
