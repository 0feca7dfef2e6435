package profiles

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/tripwear/profiles/logbook"
)

// LogFile is the name of the logbook in a car folder.
const LogFile = "logbook.csv"

// log reads the logbook, judges every row by the car and the rows before it,
// and brings the car up to date.
func (l *loader) log() {
	l.folder.Car.Written = l.folder.Car.Odometer
	if !l.exists(LogFile) {
		return
	}
	if bad := irregular(l.fsys, LogFile); bad != "" {
		l.errs.add(Position{File: LogFile}, bad, "a file that can be read", "")
		return
	}
	f, err := l.fsys.Open(LogFile)
	if err != nil {
		l.errs.add(Position{File: LogFile}, reason(err), "a file that can be read", "")
		return
	}
	defer f.Close()
	log, faults := logbook.Read(f)
	for _, fault := range faults {
		l.errs.add(Position{LogFile, fault.Line, fault.Column}, fault.What, fault.Expected, fault.Hint)
	}
	if len(l.errs) > 0 {
		return // names and readings can only be judged by a sound folder
	}
	h := l.folder.History()
	for _, e := range byDay(log.Entries) {
		if len(l.errs) >= MostFaults {
			return
		}
		wrong := h.names(e)
		if !e.Confirmed {
			var doubts []logbook.Fault
			wrong, doubts = h.Judge(e)
			for _, d := range doubts {
				d.Hint = "correct it, or write yes in the column confirmed of this row"
				wrong = append(wrong, d)
			}
		}
		for _, fault := range wrong {
			l.errs.add(Position{LogFile, e.Line, 1}, fault.What, fault.Expected, fault.Hint)
		}
		h.add(e)
	}
	l.folder.Torn = log.Torn
	if len(l.errs) == 0 {
		l.folder.hear(log.Entries)
	}
}

// byDay are rows in the order of their days: a spreadsheet may have sorted them
// another way.
func byDay(rows []logbook.Entry) []logbook.Entry {
	return slices.SortedStableFunc(slices.Values(rows), func(a, b logbook.Entry) int {
		return cmp.Or(a.Date.Compare(b.Date), cmp.Compare(a.Odometer, b.Odometer))
	})
}

// AddToLog judges new rows by the car and by one another. Errors says what is
// wrong; doubts are what the owner has to confirm, one line each.
func (f *Folder) AddToLog(entries []logbook.Entry) (doubts []string, err error) {
	var errs Errors
	h := f.History()
	for _, e := range f.Log {
		h.add(e)
	}
	for _, e := range entries {
		wrong, odd := h.Judge(e)
		for _, fault := range wrong {
			errs.add(Position{}, fault.What, fault.Expected, fault.Hint)
		}
		for _, d := range odd {
			doubts = append(doubts, fmt.Sprintf("%s, expected %s", d.What, d.Expected))
		}
		h.add(e)
	}
	return doubts, errs.sorted()
}
