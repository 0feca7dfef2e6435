package report

import (
	"io"
	"time"

	"example.com/tripwear/profiles/logbook"
)

// Log writes rows of the logbook: a table as they were written, or a list of
// objects in SI units.
func Log(w io.Writer, rows []logbook.Entry, asJSON bool) error {
	if asJSON {
		return encode(w, rows)
	}
	p := newPrinter(w)
	if len(rows) == 0 {
		p.line("no rows")
		return p.Flush()
	}
	p.line("%s%s%s%s%s", pad("date", 12), padLeft("odometer", 11), pad("  what", 18), pad("place", 13), "value")
	for _, e := range rows {
		place := e.Place
		if e.Zone != "" {
			place += " " + e.Zone
		}
		value := e.Written
		if e.Confirmed {
			value += " (confirmed)"
		}
		if e.Note != "" {
			value += "; " + e.Note
		}
		lead := pad(e.Date.Format(time.DateOnly), 12) + padLeft(cut(e.Mark, 11), 11) + "  " + pad(string(e.What), 16) + pad(place, 13)
		p.fold(lead, value)
	}
	return p.Flush()
}

// Added says which rows were added.
func Added(w io.Writer, rows []logbook.Entry, asJSON bool) error {
	if asJSON {
		return encode(w, rows)
	}
	p := newPrinter(w)
	for _, e := range rows {
		p.line("added %s", e)
	}
	return p.Flush()
}
