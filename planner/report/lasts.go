package report

import (
	"fmt"
	"io"
	"strings"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// Lasts writes the answer whether the car lasts a number of circuit days.
func Lasts(w io.Writer, l *plan.Lasting, units quantity.System) error {
	p := newPrinter(w)
	road := "no road"
	if l.Road > 0 {
		road = quantity.Distance[units].Text(l.Road) + " of road"
	}
	p.fold("", fmt.Sprintf("%s at %s, %s: %d x %s a day, %d hot laps of %s at %s pace; as the car stands, nothing renewed",
		l.Car, l.Circuit, road, l.Sessions, minutes(l.SessionTime), l.Laps, quantity.Lap(l.LapTime), quantity.Percent[units].Text(l.Pace)))
	verdict := "YES"
	if !l.Lasts {
		verdict = "NO"
	}
	p.head(fmt.Sprintf("Does it last %s? %s", dayCount(l.Days), verdict))
	p.lasting(l)
	p.head("Advice")
	for _, s := range l.Sets {
		lead := "  "
		if !s.Lasts {
			lead = "! "
		}
		p.fold(lead, s.Name+": "+s.Advice+".")
	}
	p.readings(l)
	p.line("")
	p.fold("", fmt.Sprintf("A yes takes a chance of at least %.0f %% to come home within the limit, and at most %s %% to be driven across it unnoticed. This is a planning estimate: inspect before every session, whatever it says.",
		100*l.Least, trimmed(100*l.Cap)))
	if l.BySummary {
		p.fold("", l.Circuit+" is known by its summary alone, so its figures are wider; corners would narrow them.")
	}
	return p.Flush()
}

const (
	setWidth   = 17
	countWidth = 8
)

// readings lists the rows of the logbook that the answer starts from.
func (p printer) readings(l *plan.Lasting) {
	first := true
	for _, s := range l.Sets {
		for _, r := range s.Readings {
			if first {
				p.head("By these readings of the logbook")
				first = false
			}
			p.fold("  ", r)
		}
	}
}

// LastsJSON writes the same as one object, as JSON does a plan.
func LastsJSON(w io.Writer, l *plan.Lasting) error { return encode(w, l) }

// lasting writes a line a set: its chances by days, and the days it has left.
func (p printer) lasting(l *plan.Lasting) {
	head := pad("", setWidth+2)
	for _, n := range l.Counts {
		head += padLeft(dayCount(n), countWidth)
	}
	p.line("%s%s%s  %s", head, padLeft("median", countWidth), padLeft("90 %", countWidth-1), "ends at")
	for _, s := range l.Sets {
		mark := "  "
		if !s.Lasts {
			mark = "! "
		}
		line := mark + pad(cut(s.Name, setWidth), setWidth)
		for _, c := range s.Chance {
			line += padLeft(short(c), countWidth)
		}
		p.line("%s%s%s  %s", line, padLeft(daysLeft(s.Median), countWidth), padLeft(daysLeft(s.Sure), countWidth-1), s.Place)
	}
	p.fold("  ", "Under days: chance to come home within the limit. Median and 90 %: circuit days that half and nine in ten of the cases last.")
}

// daysLeft is a number of days in tenths; what lies beyond is not told.
func daysLeft(days float64) string {
	if days >= plan.MostDays {
		return fmt.Sprintf(">%d", plan.MostDays)
	}
	return fmt.Sprintf("%.1f", days)
}

func dayCount(n int) string {
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}

func minutes(seconds float64) string { return trimmed(seconds/60) + " min" }

// trimmed is a number in tenths, without a decimal that is 0.
func trimmed(x float64) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", x), ".0") }
