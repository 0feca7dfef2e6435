package report

import (
	"cmp"
	"fmt"
	"strings"

	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// daysAndMoney is the trip by day, its fuel stops and its budget.
func (t text) daysAndMoney() {
	t.Head("Days and money")
	nights := 0
	for i, d := range t.Days {
		t.day(i, d)
		if d.Night {
			nights++
		}
	}
	t.Note("Nights away: %d. Days begin at 8; hours are of driving, breaks not counted.", nights)
	if fuel := t.fuel(); fuel != "" {
		t.Note("Fuel stops, full at departure and a tenth of the tank kept: %s.", fuel)
	}
	if t.Rain > 0 {
		t.Note("Rain is expected on %s of the road.", page.Percent(t.Rain))
	}
	for _, kind := range plan.ExpenseKinds {
		if sum := t.Spend(kind); sum > 0 {
			t.sum(fmt.Sprintf("%.0f", sum), kind+t.of(kind))
		}
	}
	t.sum(fmt.Sprintf("%.0f", t.Spend("")), strings.TrimSpace(t.Currency+" in all")+unpricedToo(t.Unpriced())+", nominal")
	for _, e := range t.Apart {
		if e.Amount >= 0.5 {
			amount, _, _ := strings.Cut(t.money(e.Amount), " ")
			t.sum(amount, "beside that, expected: "+e.What)
		}
	}
}

// sum is an amount and what it is for.
func (t text) sum(amount, what string) { t.Fold("  "+page.PadLeft(amount, 7)+"  ", what) }

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
	t.Fold("  "+page.Pad(when, 11)+page.PadLeft(driving, 7)+"  ", cmp.Or(strings.Join(names, ", then "), "waiting"))
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
			miles := quantity.Distance[t.Units]
			out = append(out, fmt.Sprintf("%s after %s %s", l.Name, page.Joined(l.RefuelAt, miles.Number), miles.Name))
		case profiles.CircuitLeg:
			out = append(out, fmt.Sprintf("%s (burns %.1f tanks)", l.Name, l.Tanks))
		}
	}
	return strings.Join(out, "; ")
}

// of names what the expenses of a kind are for, where that is not plain.
func (t text) of(kind string) string {
	var out []string
	for _, e := range t.Budget {
		if e.Kind == kind && kind != plan.ForParts {
			out = append(out, e.What)
		}
	}
	if len(out) == 0 {
		return ""
	}
	return ": " + strings.Join(out, ", ")
}
