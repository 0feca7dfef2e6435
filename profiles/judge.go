package profiles

import (
	"fmt"
	"slices"
	"time"

	"example.com/tripwear/profiles/logbook"
)

// Judged is what is to be said of rows before they go into the logbook.
type Judged struct {
	Rows      []logbook.Entry // numbered; one that the reader would doubt is marked as confirmed
	Questions []string        // what the owner has to confirm first, one line each
}

// Judge checks the logbook as it would be with rows added, whole: each new row
// by all others, and each other row by the new ones. Its error is Errors and
// says what no confirmation puts right.
func (f *Folder) Judge(rows []logbook.Entry, today time.Time) (Judged, error) {
	j := judging{Judged: Judged{Rows: make([]logbook.Entry, len(rows))}, folder: f, asked: map[int]bool{}}
	was := f.Rows()
	for i, e := range rows {
		e.Number = len(was) + i + 1
		j.Rows[i] = e
	}
	live, faults := logbook.Live(append(was, j.Rows...))
	for _, fault := range faults {
		j.errs.Fault(Position{}, fault)
	}
	if len(faults) > 0 {
		return j.Judged, j.errs.Sorted()
	}
	j.alone(live, len(was))
	if len(j.errs) > 0 {
		return j.Judged, j.errs.Sorted()
	}
	h := j.whole(live, len(was))
	if len(j.errs) > 0 {
		return j.Judged, j.errs.Sorted()
	}
	for _, e := range live {
		if e.Number > len(was) {
			j.ask(e, append(h.placed(e), h.below(e, f.newestDay(), today)...))
		}
	}
	j.unused(live, len(was))
	return j.Judged, nil
}

type judging struct {
	Judged
	folder *Folder
	errs   Errors
	asked  map[int]bool // numbers of rows that something is asked about
}

// alone checks each new row by all that was there, so that it is the new row
// that is asked about.
func (j *judging) alone(live []logbook.Entry, was int) {
	h := j.folder.History()
	for i, e := range live {
		if e.Number > was {
			wrong, doubts := h.Check(e)
			for _, fault := range wrong {
				j.errs.Fault(Position{}, fault)
			}
			j.doubt(&live[i], doubts, was)
		}
		h.add(live[i])
	}
}

// whole checks the logbook as its reader will, and gives what is known then.
func (j *judging) whole(live []logbook.Entry, was int) *History {
	h := j.folder.History()
	for _, e := range byDay(live) {
		if !e.Confirmed && len(j.errs) < MostFaults {
			wrong, doubts := h.Check(e)
			switch {
			case e.Number > was:
				for _, fault := range wrong {
					j.errs.Fault(Position{}, fault)
				}
				j.doubt(&e, doubts, was)
			default:
				for _, fault := range append(wrong, doubts...) {
					j.errs.Add(Position{}, fmt.Sprintf("row %d of the logbook would no longer hold, %s: %s", e.Number, e, fault.What), fault.Expected,
						fmt.Sprintf("nothing was added; put it right first, with tripwear log correct %d WHAT VALUE or tripwear log undo %d; if it is right, tripwear log correct %d --confirm", e.Number, e.Number, e.Number))
				}
			}
		}
		h.add(e)
	}
	return h
}

// doubt asks about a new row that the reader would doubt, and marks it.
func (j *judging) doubt(e *logbook.Entry, doubts []logbook.Fault, was int) {
	if len(doubts) == 0 {
		return
	}
	var lines []string
	for _, d := range doubts {
		lines = append(lines, fmt.Sprintf("%s, expected %s", d.What, d.Expected))
	}
	e.Confirmed, j.Rows[e.Number-was-1].Confirmed = true, true
	j.ask(*e, lines)
}

func (j *judging) ask(e logbook.Entry, lines []string) {
	j.Questions = append(j.Questions, lines...)
	j.asked[e.Number] = j.asked[e.Number] || len(lines) > 0
}

// unused asks about new rows that would not be used, or doubted, where nothing
// was asked yet.
func (j *judging) unused(live []logbook.Entry, was int) {
	for _, e := range j.folder.With(live).Evidence {
		if e.Number > was && e.Effect != Counts && e.Effect != Noted && !j.asked[e.Number] {
			j.ask(e.Entry, []string{fmt.Sprintf("%s %s: %s", e.Subject(), e.Written, e.Why)})
		}
	}
}

// With is the folder as it would be with other rows in its logbook, none of
// them taken back.
func (f *Folder) With(live []logbook.Entry) *Folder {
	out := f.Clone()
	out.Car = out.AsWritten()
	out.Car.Fitted = slices.Clone(out.Car.Fitted)
	out.update(live)
	return out
}
