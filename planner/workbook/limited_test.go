package workbook

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles/quantity"

	"example.com/tripwear/planner/workbook/form"
)

// TestLimitedParts have a row for each limit with the plan's figures, and no
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
	table := rows(t, book, wearName)
	for _, pt := range set.Points {
		row := slices.IndexFunc(table, func(r []string) bool {
			return len(r) > wearSpot && strings.HasPrefix(r[wearSpot-1], "gearbox "+pt.Zone)
		})
		if row < 0 {
			t.Errorf("no row of gearbox %s", pt.Zone)
			continue
		}
		got, err := strconv.ParseFloat(table[row][wearLegs+5], 64) // after leg 8, the seventh driven
		if want := pt.After[7].P50; err != nil || got < want-1e-6 || got > want+1e-6 {
			t.Errorf("gearbox %s: %s, the plan has %.6f", pt.Zone, table[row], want)
		}
	}
	if len(set.Points) != 2 {
		t.Errorf("%d limits", len(set.Points))
	}
	for _, row := range rows(t, book, form.Sheet) {
		if text := strings.Join(row, " "); strings.Contains(text, "gearbox") {
			t.Errorf("the form asks %q", text)
		}
	}
}
