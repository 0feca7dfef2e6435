package report

import (
	"fmt"
	"strings"

	"example.com/tripwear/profiles/quantity"
)

// boot says what goes in the boot, and which tools go along.
func (t text) boot() {
	if len(t.Packing) == 0 {
		return
	}
	fits := "fits"
	if !t.Boot.Fits {
		fits = "DOES NOT FIT"
	}
	var names, tools []string
	for _, it := range t.Packing {
		names = append(names, it.Name)
	}
	for _, tool := range t.Tools {
		tools = append(tools, tool.Name)
	}
	t.line("In the boot, beside the luggage")
	t.fold("  PACK   ", fmt.Sprintf("%s: %s of %s and %s of %s, %s.", strings.Join(names, ", "),
		quantity.Boot[t.units].Text(t.Boot.UsedVolume), quantity.Boot[t.units].Text(t.Boot.Volume),
		quantity.Weight[t.units].Text(t.Boot.UsedMass), quantity.Weight[t.units].Text(t.Boot.Payload), fits))
	if len(tools) > 0 {
		t.fold("  TOOLS  ", "counted with the luggage: "+strings.Join(tools, ", ")+".")
	}
}

// order lists what to buy, what is late first, with its sums.
func (t text) order() {
	if len(t.Shopping) == 0 {
		return
	}
	t.line("Order")
	wheels := false
	for _, it := range t.Shopping {
		detail := it.Buy
		switch {
		case it.OnShelf:
			detail += ", on the shelf"
		case it.Late:
			detail += ", LATE: order by was " + it.OrderBy.Format("2 Jan 2006")
		case !it.OrderBy.IsZero():
			detail += ", order by " + it.OrderBy.Format("2 Jan 2006")
		}
		price := "-"
		if it.Price > 0 && !it.OnShelf {
			price = fmt.Sprintf("%.0f", it.Price)
		}
		t.fold("  "+padLeft(price, 5)+"  ", fmt.Sprintf("%s, %s: %s", it.Name, it.Quantity(t.units), detail))
		wheels = wheels || it.Wheels
	}
	var sums []string
	total := 0.0
	for _, sum := range t.Totals {
		total += sum.Price
		sums = append(sums, fmt.Sprintf("%s %.0f", sum.Buy, sum.Price))
	}
	if total > 0 {
		t.fold("  "+padLeft(fmt.Sprintf("%.0f", total), 5)+"  ", strings.TrimSpace(t.Currency+" in all")+", fitting not counted: "+strings.Join(sums, ", "))
	}
	if wheels {
		t.fold("         ", "Wheels come off: have the maker's torque for their fasteners at hand.")
	}
}

func (t text) checks() {
	t.head("Check on the way")
	when := ""
	for _, c := range t.Checks {
		if c.When != when {
			when = c.When
			t.line("  %s", when)
		}
		t.fold("    - ", t.Say(c, t.units))
	}
}
