package report

import (
	"io"
	"time"

	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// Log writes rows of the logbook as a table, in the units they were written in.
func Log(w io.Writer, rows []logbook.Entry, units quantity.System) error {
	p := newPrinter(w, units)
	if len(rows) == 0 {
		p.line("no rows")
		return p.Flush()
	}
	p.row(columns{-12, 11, -18, -13, 0}, "date", "odometer", "  what", "place", "value")
	for _, e := range rows {
		value := e.Written
		if e.Confirmed {
			value += " (confirmed)"
		}
		if e.Note != "" {
			value += "; " + e.Note
		}
		lead := pad(e.Date.Format(time.DateOnly), 12) + padLeft(cut(e.Mark, 11), 11) + "  " + pad(string(e.What), 16) + pad(e.Place+zoned(e.Zone), 13)
		p.fold(lead, value)
	}
	return p.Flush()
}

// Added says which rows were added.
func Added(w io.Writer, rows []logbook.Entry, units quantity.System) error {
	p := newPrinter(w, units)
	for _, e := range rows {
		p.line("added %s", e)
	}
	return p.Flush()
}
