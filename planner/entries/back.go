package entries

import (
	"fmt"
	"time"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

const numbered = "tripwear log show numbers the rows"

// TakeBack is the rows that take others back: those with numbers, or the last
// that plays a part.
func TakeBack(folder *profiles.Folder, numbers []int, day time.Time, note string) ([]logbook.Entry, error) {
	rows := folder.Rows()
	if len(numbers) == 0 {
		live, _ := logbook.Live(rows)
		if len(live) == 0 {
			return nil, wrong("the logbook has no row to take back", numbered)
		}
		numbers = []int{live[len(live)-1].Number}
	}
	var out []logbook.Entry
	var errs profiles.Errors
	by, _ := logbook.Undone(rows)
	for _, n := range numbers {
		switch {
		case n > len(rows):
			errs = append(errs, &profiles.Error{What: fmt.Sprintf("there is no row %d", n), Expected: fmt.Sprintf("1 to %d", len(rows)), Hint: numbered})
		case by[n] > 0:
			errs = append(errs, &profiles.Error{What: fmt.Sprintf("row %d is taken back already, by row %d", n, by[n]), Hint: fmt.Sprintf("tripwear log undo %d brings it back", by[n])})
		case by[n] == 0:
			out = append(out, rows[n-1].TakeBack(day, note))
		}
	}
	if len(errs) > 0 {
		return nil, errs
	}
	return out, nil
}
