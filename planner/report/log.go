package report

import (
	"fmt"
	"io"
	"strconv"
	"time"

	"example.com/tripwear/planner/page"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// Log writes rows of the logbook as a table, in the units they were written in,
// and what each did.
func Log(w io.Writer, rows []profiles.Evidence, v View) error {
	p := newPrinter(w, v)
	if len(rows) == 0 {
		p.Line("no rows")
		return p.Flush()
	}
	table := p.Table(page.Columns{4, 2, -11, -11, 10, 2, -16, -11, 0}, "row", "", "did", "date", "odometer", "", "what", "place", "value")
	for _, e := range rows {
		value := e.Written
		if n := e.Target(); n > 0 {
			value = fmt.Sprintf("row %d", n)
		}
		if e.Part != "" {
			value += " of " + e.Part
		}
		if e.Confirmed {
			value += " (confirmed)"
		}
		if e.Note != "" {
			value += "; " + e.Note
		}
		table.Row(strconv.Itoa(e.Number), "", string(e.Effect), e.Date.Format(time.DateOnly), page.Cut(e.Mark, 10), "", string(e.What), e.Place+zoned(e.Zone), value)
		if e.Why != "" {
			p.Fold("      ", e.Why)
		}
	}
	return p.Flush()
}

// Added says which rows were added, and which of those before they take back.
func Added(w io.Writer, rows, before []logbook.Entry, v View) error {
	p := newPrinter(w, v)
	for _, e := range rows {
		if n := e.Target(); n > 0 {
			p.Line("took back row %d: %s", n, before[n-1])
			continue
		}
		p.Line("added %s", e)
	}
	return p.Flush()
}
