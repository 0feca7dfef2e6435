package report

import (
	"fmt"
	"io"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
)

// Inventory writes what a car has and what comes due.
func Inventory(w io.Writer, inv *plan.Inventory, v View) error {
	p := newPrinter(w, v)
	p.Fold("", fmt.Sprintf("%s at %s on %s", inv.Car, p.Travel(inv.Odometer), inv.Day.Format("2 Jan 2006")))
	if !inv.Since.IsZero() {
		p.Fold("", fmt.Sprintf("Usual use: %s and %.1f circuit days a month, since %s", p.Travel(inv.Meters), inv.Days, inv.Since.Format("2 Jan 2006")))
	}
	p.Head("Parts, those due first")
	widths := page.Columns{-26, 6, -2, -22, 0}
	table := p.Table(widths, "", "used", "", "where, by what", "due at the usual use")
	for _, s := range inv.Parts {
		due := fmt.Sprintf("not within %d years", plan.Ahead)
		switch {
		case kind.Of(s.Kind).Lifetime:
			due = "fails by chance"
		case s.Used >= 1:
			due = "past its limit now"
		case !s.Due.IsZero():
			due = s.Due.Format("Jan 2006")
		}
		table.Row(s.Name, page.Percent(s.Used), "", s.By, due)
	}
	p.Note("Nominal, at the limit; a plan says what a trip takes, with its chances. The brake fluid is judged by each circuit day alone.")
	return p.Flush()
}
