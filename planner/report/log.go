package report

import (
	"fmt"
	"io"
	"strconv"
	"time"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// Log writes rows of the logbook as a table, in the units they were written in,
// and what each did.
func Log(w io.Writer, rows []profiles.Evidence, units quantity.System) error {
	p := newPrinter(w, units)
	if len(rows) == 0 {
		p.line("no rows")
		return p.Flush()
	}
	p.row(columns{4, -13, -11, 10, -18, -11, 0}, "row", "  did", "date", "odometer", "  what", "place", "value")
	for _, e := range rows {
		value := e.Written
		if n := e.Target(); n > 0 {
			value = fmt.Sprintf("row %d", n)
		}
		if e.Confirmed {
			value += " (confirmed)"
		}
		if e.Note != "" {
			value += "; " + e.Note
		}
		p.fold(padLeft(strconv.Itoa(e.Number), 4)+"  "+pad(string(e.Effect), 11)+pad(e.Date.Format(time.DateOnly), 11)+
			padLeft(cut(e.Mark, 10), 10)+"  "+pad(string(e.What), 16)+pad(e.Place+zoned(e.Zone), 11), value)
		if e.Why != "" {
			p.fold("      ", e.Why)
		}
	}
	return p.Flush()
}

// Added says which rows were added, and which of those before they take back.
func Added(w io.Writer, rows, before []logbook.Entry, units quantity.System) error {
	p := newPrinter(w, units)
	for _, e := range rows {
		if n := e.Target(); n > 0 {
			p.line("took back row %d: %s", n, before[n-1])
			continue
		}
		p.line("added %s", e)
	}
	return p.Flush()
}
