package report

import (
	"fmt"
	"io"
	"strings"

	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
)

// Inventory writes what a car has and what comes due.
func Inventory(w io.Writer, inv *plan.Inventory, v View) error {
	p := newPrinter(w, v)
	p.Fold("", fmt.Sprintf("%s at %s on %s", inv.Car, p.Travel(inv.Odometer), inv.Day.Format("2 Jan 2006")))
	if use := inv.Usual(p.Travel); use != "" {
		p.Fold("", "Usual use: "+use)
	}
	p.Head("Parts, those due first")
	widths := page.Columns{-26, 6, -2, -22, 0}
	table := p.Table(widths, "", "used", "", "where, by what", "due at the usual use")
	for _, s := range inv.Parts {
		table.Row(s.Name, page.Percent(s.Used), "", s.By, s.Comes())
	}
	if hot := heatCycles(inv); hot != "" {
		p.Note("Heat cycles, a session on circuit being one: %s.", hot)
	}
	for _, s := range inv.Parts {
		for _, note := range s.Notes {
			p.Note("%s: %s", s.Name, note)
		}
	}
	p.Note("Nominal, at the limit; a plan says what a trip takes, with its chances. The brake fluid is judged by each circuit day alone.")
	return p.Flush()
}

// heatCycles lists the sets whose heat cycles are counted.
func heatCycles(inv *plan.Inventory) string {
	var all []string
	for _, s := range inv.Parts {
		if s.Cycles == nil {
			continue
		}
		one := fmt.Sprintf("%s %.0f", s.Name, *s.Cycles)
		if s.Most > 0 {
			one += fmt.Sprintf(" of %.0f", s.Most)
		}
		all = append(all, one)
	}
	return strings.Join(all, ", ")
}
