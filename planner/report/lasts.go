package report

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// Lasts writes the answer whether the car lasts a number of circuit days.
func Lasts(w io.Writer, l *plan.Lasting, v View) error {
	p := newPrinter(w, v)
	road := "no road"
	if l.Road > 0 {
		road = p.Travel(l.Road) + " of road"
	}
	p.Fold("", fmt.Sprintf("%s at %s, %s: %d x %s min a day, %.0f hot laps of %s at %s pace; as the car stands, nothing replaced",
		l.Car, l.Circuit, road, l.Sessions, trimmed(l.SessionTime/60), l.Laps, quantity.Lap(l.LapTime), page.Percent(l.Pace)))
	p.Head(fmt.Sprintf("Does it last %s? %s", page.Count(l.Days, "day"), l.Verdict))
	p.Tell("WHY", sentence(l.Why))
	p.readings(l.Readings)
	p.lasting(l)
	p.restOfTrip(l)
	p.Head("Advice")
	var readings []string
	for _, s := range l.Sets {
		p.Fold(mark(s), s.Name+": "+s.Advice+".")
		readings = append(readings, s.Readings...)
	}
	p.Section("By these readings of the logbook", "  ", readings)
	p.Line("")
	p.Fold("", fmt.Sprintf("A yes takes a chance of at least %s to come home within the limit, and at most %s %% to be driven past it unnoticed; a plan asks only the second, since it replaces and brings what this leaves alone. "+page.Estimate,
		page.Percent(l.Least), trimmed(100*l.Cap)))
	if l.BySummary {
		p.Fold("", l.Circuit+" is known by its summary alone, so its figures are wider; corners would narrow them.")
	}
	return p.Flush()
}

// restOfTrip says what is left for the trip under way where that is less than a
// yes takes.
func (p printer) restOfTrip(l *plan.Lasting) {
	for _, s := range l.Sets {
		if s.Lasts && s.Rest != nil && *s.Rest < l.Least {
			p.Tell("BUT", fmt.Sprintf("%s: %s chance to come home within the limit on the rest of the trip (%s): see the plan before you spend it here.", s.Name, quantity.Chance(*s.Rest), l.Rest))
		}
	}
}

// mark points at a set that does not last.
func mark(s plan.SetLasting) string {
	if s.Lasts {
		return "  "
	}
	return "! "
}

// lasting writes a line a set: its chances by days, and the days it has left.
func (p printer) lasting(l *plan.Lasting) {
	widths := slices.Concat(page.Columns{-19}, slices.Repeat(page.Columns{8}, len(l.Counts)), page.Columns{8, 7, 0})
	var days []string
	for _, n := range l.Counts {
		days = append(days, page.Count(n, "day"))
	}
	table := p.Table(widths, slices.Concat([]string{""}, days, []string{"median", "90 %", "  ends at"})...)
	for _, s := range l.Sets {
		cells := []string{mark(s) + s.Name}
		for _, c := range s.Chance {
			cells = append(cells, short(c))
		}
		table.Row(append(cells, daysLeft(s.Median), daysLeft(s.Sure), "  "+s.Place)...)
	}
	p.Note("Under days: chance to come home within the limit. Median and 90 %%: circuit days that half and nine in ten of the cases last.")
}

// daysLeft is a number of days in tenths; what lies beyond is not known.
func daysLeft(days float64) string {
	if days >= plan.MostDays {
		return fmt.Sprintf(">%d", plan.MostDays)
	}
	return quantity.Down(days, 1)
}

// trimmed is a number in tenths, without a decimal that is 0.
func trimmed(x float64) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", x), ".0") }
