package report

import (
	"fmt"
	"io"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// Inventory writes what a car has and what comes due.
func Inventory(w io.Writer, inv *plan.Inventory, units quantity.System) error {
	p := newPrinter(w, units)
	p.fold("", fmt.Sprintf("%s at %s on %s", inv.Car, p.distance(inv.Odometer), inv.Day.Format("2 Jan 2006")))
	if !inv.Since.IsZero() {
		p.fold("", fmt.Sprintf("Usual use: %s and %.1f circuit days a month, since %s", p.distance(inv.Meters), inv.Days, inv.Since.Format("2 Jan 2006")))
	}
	p.head("Parts, those due first")
	widths := columns{-26, 6, -2, -22, 0}
	p.row(widths, "", "used", "", "where, by what", "due at the usual use")
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
		p.row(widths, s.Name, percent(s.Used), "", s.By, due)
	}
	p.note("Nominal, at the limit; a plan says what a trip takes, with its chances. The brake fluid is judged by each circuit day alone.")
	return p.Flush()
}
