package calendar

import (
	"fmt"
	"io"
	"strings"

	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// Events writes which events to go to, and the season of those picked.
func Events(w io.Writer, e *plan.Events, v page.View) error {
	p := page.New(w, v)
	picked := 0
	for _, c := range e.Candidates {
		if c.Picked {
			picked++
		}
	}
	aim := "the cheapest by the hour on circuit"
	switch {
	case e.Spend > 0:
		aim = fmt.Sprintf("the most time on circuit for %.0f", e.Spend)
	case e.Sparing != "":
		aim = "the least wear of the " + e.Sparing + " tread by the hour"
	}
	p.Fold("", fmt.Sprintf("%d of %d events: %s", picked, len(e.Candidates), aim))
	hour := strings.TrimSpace(e.Sparing + " an hour")
	table := p.Table(page.Columns{-2, -8, -p.Fit(21), 6, 7, 6, 6, 2, -10, 12}, "", "", "", "hours", "away", "parts", "risk", "", "takes most", hour)
	whole := func(x float64) string { return page.Thousands(x) }
	for _, c := range e.Candidates {
		mark, cost := "", whole(c.Hour())
		if c.Picked {
			mark = "+"
		}
		if e.Sparing != "" {
			cost = quantity.Percent[v.Units].Text(c.Share / c.Hours)
		}
		date := c.Depart.Format("Jan 2")
		if v.Units == quantity.Metric {
			date = c.Depart.Format("2 Jan")
		}
		table.Row(mark, date, c.Trip, fmt.Sprintf("%.1f", c.Hours), whole(c.Fixed), whole(c.Life), whole(c.Risk), "", fmt.Sprintf("%s %.0f %%", c.Wheel, 100*c.Tread), cost)
	}
	table.Flush()
	p.Note("Each by itself from today's car: away is fees, fuel and nights; parts is the life worn off them at their prices; risk is being stopped short, chance times cost.")
	switch {
	case e.Season == nil && !e.Proved:
		p.Fold("", fmt.Sprintf("NONE WAS FOUND that can be driven safely as the car stands and will do: %s, those that promise most, were planned as seasons; another might do. Name fewer trips.", page.Count(e.Tried, "set")))
		return p.Flush()
	case e.Season == nil:
		p.Fold("", "NO such set of events can be driven safely as the car stands; plan one of them by itself to see what would make it safe.")
		return p.Flush()
	case e.Proved:
		p.Note("Planned as seasons: %s; no other set of them is better.", page.Count(e.Tried, "set"))
	case !e.Proved:
		p.Note("Planned as seasons: %s, those that promise most; another might still be better.", page.Count(e.Tried, "set"))
	}
	p.Line("")
	if err := p.Flush(); err != nil {
		return err
	}
	return Screen(w, e.Season, v)
}
