package report

import (
	"fmt"
	"strings"

	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// trunk says what goes in the trunk, and which tools go along.
func (t text) trunk() {
	if len(t.Packing) == 0 {
		return
	}
	fits := "fits"
	if !t.Boot.Fits {
		fits = "DOES NOT FIT"
	} else if t.Boot.Unknown > 0 {
		fits = "and " + page.Count(t.Boot.Unknown, "thing") + " of unknown room, so whether it fits is not known"
	}
	t.Fold("", "In the trunk, beside the luggage")
	t.Tell("PACK", fmt.Sprintf("%s: %s, %s.", page.Joined(t.Packing, func(it plan.Item) string { return it.Name }), t.Boot.Room(t.Units), fits))
	if len(t.Tools) > 0 {
		t.Tell("TOOLS", "counted with the luggage: "+page.Joined(t.Tools, func(tool plan.Tool) string { return tool.Name })+".")
	}
}

// swaps says what is swapped before which leg.
func (t text) swaps() {
	if len(t.Swaps) > 0 {
		t.Line("Swap")
	}
	for _, s := range t.Swaps {
		t.Tell("SWAP", fmt.Sprintf("before %s: %s on the car in place of %s (%s), about %.1f h.", t.Legs[s.Leg].Name, s.OnName, s.Off, s.Name, s.Seconds/3600))
	}
}

// order lists what to buy, what is late first, with its sums.
func (t text) order() {
	if len(t.Shopping) == 0 {
		return
	}
	t.Line("Order")
	wheels := false
	for _, it := range t.Shopping {
		detail := it.Buy
		switch {
		case it.OnShelf:
			detail += ", on the shelf"
		case it.Late:
			detail += ", LATE: order by was " + ordered(it)
		case !it.OrderBy.IsZero():
			detail += ", order by " + ordered(it)
		}
		price := "-"
		switch {
		case it.OnShelf:
		case !quantity.Known(it.Price):
			price = "?"
		case it.Price > 0:
			price = fmt.Sprintf("%.0f", it.Price)
		}
		t.sum(price, fmt.Sprintf("%s, %s: %s", it.Name, it.Quantity(t.Units), detail))
		wheels = wheels || it.Wheels
	}
	total, unpriced := 0.0, 0
	for _, sum := range t.Totals {
		total, unpriced = total+sum.Price, unpriced+sum.Unpriced
	}
	if total > 0 || unpriced > 0 {
		sums := page.Joined(t.Totals, func(s plan.Total) string { return fmt.Sprintf("%s %.0f", s.Buy, s.Price) + unpricedToo(s.Unpriced) })
		t.sum(fmt.Sprintf("%.0f", total), strings.TrimSpace(t.Currency+" in all")+unpricedToo(unpriced)+", fitting not counted: "+sums)
	}
	if wheels {
		t.Tell("", "Wheels come off: have your wheel-nut torque handy.")
	}
}

// ordered is the last day to order an item, and what it leaves time for.
func ordered(it plan.Item) string {
	return fmt.Sprintf("%s, there by %s %s", it.OrderBy.Format("2 Jan 2006"), it.ThereBy.Format("Mon 2 Jan"), it.ThereFor)
}

// unpricedToo says beside a sum how many prices it lacks.
func unpricedToo(n int) string {
	if n == 0 {
		return ""
	}
	return " and " + page.Count(n, "unknown price")
}

func (t text) checks() {
	t.Head("Check on the way")
	when := ""
	for _, c := range t.Checks {
		if c.When != when {
			when = c.When
			t.Line("  %s", when)
		}
		t.Fold("    - ", t.Say(c, t.Units))
	}
}
