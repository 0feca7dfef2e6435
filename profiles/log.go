package profiles

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/tripwear/profiles/decode"
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
	log, faults, of := l.rows()
	l.folder.logOf = of
	for _, fault := range faults {
		l.errs.Fault(Position{File: of, Line: fault.Line, Column: fault.Column}, fault)
	}
	if len(l.errs) > 0 {
		return // names and readings can only be checked against a car without errors
	}
	h := l.folder.History()
	live, _ := logbook.Live(log.Entries)
	for _, e := range byDay(live) {
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
			l.errs.Fault(Position{File: of, Line: e.Line, Column: 1}, fault)
		}
		h.add(e)
	}
	l.folder.Torn = log.Torn
	if len(l.errs) == 0 {
		l.folder.follow(log.Entries)
	}
}

func (l *loader) rows() (log logbook.Log, faults []logbook.Fault, of string) {
	if l.docs != nil {
		return l.docs.Log()
	}
	f, wrong := decode.Open(l.fsys, LogFile)
	if wrong != "" {
		return log, []logbook.Fault{{What: wrong, Expected: "a file that can be read"}}, LogFile
	}
	defer f.Close()
	log, faults = logbook.Read(f)
	return log, faults, LogFile
}

// follow brings the car up to date with the rows of a logbook, which are as in
// the file, and says what each did.
func (f *Folder) follow(rows []logbook.Entry) {
	live, _ := logbook.Live(rows)
	f.update(live)
	weighed := map[int]Evidence{}
	for _, e := range f.Evidence {
		weighed[e.Number] = e
	}
	by, _ := logbook.Undone(rows)
	f.Evidence = make([]Evidence, len(rows))
	for i, e := range rows {
		f.Evidence[i] = Evidence{Entry: e, Effect: Counts}
		if w, ok := weighed[e.Number]; ok {
			f.Evidence[i] = w
		}
		if n := by[e.Number]; n > 0 {
			f.Evidence[i].Effect, f.Evidence[i].Why = TakenBack, fmt.Sprintf("row %d takes it back", n)
		}
	}
	slices.SortStableFunc(f.Evidence, func(a, b Evidence) int { return asDriven(a.Entry, b.Entry) })
}

// Rows is every row of the logbook in the order of the file, those taken back
// too.
func (f *Folder) Rows() []logbook.Entry {
	rows := make([]logbook.Entry, len(f.Evidence))
	for _, e := range f.Evidence {
		rows[e.Number-1] = e.Entry
	}
	return rows
}

func asDriven(a, b logbook.Entry) int {
	return cmp.Or(cmp.Compare(a.Odometer, b.Odometer), a.Date.Compare(b.Date))
}

// byDay is the rows by day: a spreadsheet may have sorted them another way.
func byDay(rows []logbook.Entry) []logbook.Entry {
	return slices.SortedStableFunc(slices.Values(rows), func(a, b logbook.Entry) int {
		return cmp.Or(a.Date.Compare(b.Date), cmp.Compare(a.Odometer, b.Odometer))
	})
}
