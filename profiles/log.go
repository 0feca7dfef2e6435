package profiles

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/tripwear/profiles/logbook"
)

// LogFile is the name of the logbook in a car folder.
const LogFile = "logbook.csv"

// log reads the logbook, checks every row against the car and the rows before
// it, and brings the car up to date.
func (l *loader) log() {
	l.folder.Car.Written = l.folder.Car.Odometer
	if !l.exists(LogFile) {
		return
	}
	f, wrong := open(l.fsys, LogFile)
	if wrong != "" {
		l.errs.add(Position{File: LogFile}, wrong, "a file that can be read", "")
		return
	}
	defer f.Close()
	log, faults := logbook.Read(f)
	for _, fault := range faults {
		l.errs.fault(Position{LogFile, fault.Line, fault.Column}, fault)
	}
	if len(l.errs) > 0 {
		return // names and readings can only be checked against a car without errors
	}
	h := l.folder.History()
	for _, e := range byDay(log.Entries) {
		if len(l.errs) >= MostFaults {
			return
		}
		wrong := h.names(e)
		if !e.Confirmed {
			var doubts []logbook.Fault
			wrong, doubts = h.Check(e)
			for _, d := range doubts {
				d.Hint = "correct it; if it is right, write yes in the column confirmed of this row"
				wrong = append(wrong, d)
			}
		}
		for _, fault := range wrong {
			l.errs.fault(Position{LogFile, e.Line, 1}, fault)
		}
		h.add(e)
	}
	l.folder.Torn = log.Torn
	if len(l.errs) == 0 {
		l.folder.update(log.Entries)
	}
}

// byDay is the rows by day: a spreadsheet may have sorted them another way.
func byDay(rows []logbook.Entry) []logbook.Entry {
	return slices.SortedStableFunc(slices.Values(rows), func(a, b logbook.Entry) int {
		return cmp.Or(a.Date.Compare(b.Date), cmp.Compare(a.Odometer, b.Odometer))
	})
}

// AddToLog checks new rows against the car and one another. Errors says what is
// wrong; doubts are what the owner has to confirm, one line each.
func (f *Folder) AddToLog(entries []logbook.Entry) (doubts []string, err error) {
	var errs Errors
	h := f.History()
	for _, e := range f.Log {
		h.add(e)
	}
	for _, e := range entries {
		wrong, odd := h.Check(e)
		for _, fault := range wrong {
			errs.fault(Position{}, fault)
		}
		for _, d := range odd {
			doubts = append(doubts, fmt.Sprintf("%s, expected %s", d.What, d.Expected))
		}
		h.add(e)
	}
	return doubts, errs.sorted()
}
