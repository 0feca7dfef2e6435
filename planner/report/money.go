package report

import (
	"fmt"
	"strings"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// daysAndMoney is the trip by day, its fuel stops and its budget.
func (t text) daysAndMoney() {
	t.head("Days and money")
	nights := 0
	for i, d := range t.Days {
		t.day(i, d)
		if d.Night {
			nights++
		}
	}
	t.fold("  ", fmt.Sprintf("Nights away: %d. Days begin at 8; hours are of driving, breaks not counted.", nights))
	if fuel := t.fuel(); fuel != "" {
		t.fold("  ", "Fuel stops, full at departure and a tenth of the tank kept: "+fuel+".")
	}
	if t.Rain > 0 {
		t.fold("  ", fmt.Sprintf("Rain is expected on %.0f %% of the road.", 100*t.Rain))
	}
	for _, kind := range plan.ExpenseKinds {
		if sum := t.Spend(kind); sum > 0 {
			t.fold("  "+padLeft(fmt.Sprintf("%.0f", sum), 6)+"  ", kind+t.of(kind))
		}
	}
	t.fold("  "+padLeft(fmt.Sprintf("%.0f", t.Spend("")), 6)+"  ", strings.TrimSpace(t.Currency+" in all"))
	for _, e := range t.Apart {
		if e.Amount >= 0.5 {
			t.fold("  "+padLeft(t.amount(e.Amount), 6)+"  ", "beside that, expected: "+e.What)
		}
	}
}

// day is a line: date, hours on the road, what it is spent on.
func (t text) day(i int, d plan.Day) {
	when := fmt.Sprintf("day %d", i+1)
	if !d.Date.IsZero() {
		when = d.Date.Format("Mon _2 Jan")
	}
	driving := ""
	if d.Driving > 0 {
		driving = fmt.Sprintf("%.1f h", d.Driving)
	}
	var names []string
	for _, j := range d.Legs {
		names = append(names, t.Legs[j].Name)
	}
	if len(names) == 0 {
		names = []string{"waiting"}
	}
	t.fold("  "+pad(when, 11)+padLeft(driving, 7)+"  ", strings.Join(names, ", then "))
}

// fuel lists the fuel stops, leg by leg.
func (t text) fuel() string {
	var out []string
	for _, l := range t.Legs {
		if l.Refuels == 0 {
			continue
		}
		switch l.Kind {
		case profiles.RoadLeg:
			var at []string
			for k, m := range l.RefuelAt {
				mark := quantity.Distance[t.units].Text(m)
				if k < len(l.RefuelAt)-1 {
					mark, _, _ = strings.Cut(mark, " ")
				}
				at = append(at, mark)
			}
			out = append(out, fmt.Sprintf("%s after %s", l.Name, strings.Join(at, ", ")))
		case profiles.CircuitLeg:
			out = append(out, fmt.Sprintf("%s (burns %.1f tanks)", l.Name, l.Tanks))
		}
	}
	return strings.Join(out, "; ")
}

// of names what the expenses of a kind are for, where that is not plain.
func (t text) of(kind string) string {
	if kind == plan.ForParts {
		return ""
	}
	var out []string
	for _, e := range t.Budget {
		if e.Kind == kind {
			out = append(out, e.What)
		}
	}
	return ": " + strings.Join(out, ", ")
}

// amount is money to two significant figures, without its currency.
func (t text) amount(x float64) string {
	s, _, _ := strings.Cut(t.money(x), " ")
	return s
}
