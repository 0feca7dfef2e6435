package workbook

import (
	"strconv"
	"strings"
	"testing"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles/quantity"
)

// TestLimitedParts have a column for each limit with the plan's figures, and no
// row on the form: nobody reads a count.
func TestLimitedParts(t *testing.T) {
	f, trip := randomcar.Edited(t, map[string]string{"car.yaml # What lies in the garage already.": `
  - {part: gearbox-oil, at: [gearbox], since: {date: 2025-01-01, odometer: 130000 mi}, circuit_days: 6}
`})
	p, err := planner.Make(f, trip, planner.Options{Draws: 200})
	if err != nil {
		t.Fatal(err)
	}
	set, book := find(t, p, "gearbox-oil"), reopened(t, p, quantity.US)
	table := rows(t, book, othersName)
	const heading = "Gearbox oil life, %"
	names, home := below(t, table, heading, "After"), below(t, table, heading, "8")
	for i, pt := range set.Points {
		got, err := strconv.ParseFloat(home[1+2*i], 64)
		if want := pt.After[7].P50; names[1+2*i] != "gearbox "+pt.Zone || err != nil || got < want-1e-6 || got > want+1e-6 {
			t.Errorf("%s: %s, the plan has %s at %.6f", names[1+2*i], home[1+2*i], pt.Zone, want)
		}
	}
	if len(set.Points) != 2 {
		t.Errorf("%d limits", len(set.Points))
	}
	for _, row := range rows(t, book, formName) {
		if text := strings.Join(row, " "); strings.Contains(text, "gearbox") {
			t.Errorf("the form asks %q", text)
		}
	}
}
