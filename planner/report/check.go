package report

import (
	"io"

	"example.com/tripwear/planner/page"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/strays"
)

// Checked is what was read of a car folder without an error.
type Checked struct {
	Car        string         `json:"car"`
	Fitted     int            `json:"fitted"`
	Circuits   int            `json:"circuits"`
	Trips      int            `json:"trips"`
	Rows       int            `json:"rows"` // of the logbook
	OilReports int            `json:"oil_reports"`
	Rates      int            `json:"rates"` // files of other cars
	Unread     []strays.Stray `json:"unread"`
}

// CheckedOf counts what a folder holds, beside what nothing reads.
func CheckedOf(f *profiles.Folder, unread []strays.Stray) Checked {
	return Checked{f.Car.Name, len(f.Car.Fitted), len(f.Circuits), len(f.Trips), len(f.Log), len(f.OilReports), len(f.Rates), unread}
}

// Check writes what was read for a terminal.
func Check(w io.Writer, c Checked, v View) error {
	p := newPrinter(w, v)
	p.Line("%s: no error found", page.Plainly(c.Car))
	p.Line("  read %s fitted, %s of the logbook, %s", page.Count(c.Fitted, "part"), page.Count(c.Rows, "row"), page.Count(c.OilReports, "oil report"))
	if c.Rates > 0 {
		p.Line("  read the rates of %s", page.Count(c.Rates, "other car"))
	}
	p.Line("  drove %s, walked %s", page.Count(c.Circuits, "circuit"), page.Count(c.Trips, "trip"))
	for _, u := range c.Unread {
		meant := ""
		if u.Meant != "" {
			meant = ", did you mean " + u.Meant + "?"
		}
		p.Line("not read: %s%s", page.Plainly(u.Name), page.Plainly(meant))
	}
	return p.Flush()
}
