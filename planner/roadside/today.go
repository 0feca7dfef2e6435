package roadside

import (
	"fmt"
	"io"
	"strings"

	"example.com/tripwear/planner/card"
	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
)

// checksToday is how many of the next checks are printed.
const checksToday = 3

// Today writes the card for the day that the trip stands at.
func Today(w io.Writer, made *plan.Plan, v page.View) error {
	p, c := page.New(w, v), card.Of(made, v.Units)
	p.Fold("", c.Kick)
	p.Line("")
	p.Fold("", c.Title+". "+c.Lead)
	p.Line("%s:", c.First)
	p.List("  - ", c.Do)
	for i, d := range c.Days {
		if i < 2 {
			p.Line("")
			p.Line("%s", d.Head)
			p.Fold("  ", d.Text)
		}
	}
	if len(c.Circuits) > 0 {
		d := c.Circuits[0]
		p.Line("")
		p.Fold("", fmt.Sprintf("%s, %s: %s.", d.Day, d.Name, d.If))
	}
	p.Line("")
	p.Line("Expect, (least), act, stop")
	for i, row := range c.Rows {
		if i == checksToday {
			break
		}
		p.Line("%s %s", row.When, row.What)
		for k, cell := range row.Cells {
			col, least := c.Columns[k], ""
			if cell.Least != "" {
				least = "(" + cell.Least + ")"
			}
			p.Line("  %-20s%5s %5s%4s%4s", page.Cut(col.Where+" "+strings.TrimSuffix(col.Name[strings.LastIndex(col.Name, " ")+1:], "s"), 20), cell.Expect+cell.Star, least, col.Act, col.Stop)
		}
	}
	for _, star := range c.Stars {
		p.Fold("  ", star)
	}
	p.Line("")
	p.List("Look   ", c.Sessions)
	for _, s := range c.Stops {
		p.Fold("Stop   ", s.Head+". "+s.Text)
	}
	var trunk []string
	for _, t := range c.Trunk {
		trunk = append(trunk, t.Name)
	}
	if len(trunk) > 0 {
		p.Fold("Trunk  ", strings.Join(trunk, "; "))
	}
	for _, r := range c.Rain {
		p.Fold("Rain   ", fmt.Sprintf("%s: floating begins about %s front, %s rear", r.Road, r.Front, r.Rear))
	}
	p.Fold("Park   ", strings.Join(c.Park, "; "))
	p.Line("")
	p.Fold("", "A planning estimate: inspect before every session. The maker's limits, inspection and local law come first.")
	return p.Flush()
}
