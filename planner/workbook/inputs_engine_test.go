//go:build engine

package workbook

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/profiles/quantity"

	"example.com/tripwear/planner/workbook/form"
)

// TestEngineSaysNotANumber types what is no number into inputs, one at a time:
// the Summary names the sheet and the cell, and nothing that follows is good.
func TestEngineSaysNotANumber(t *testing.T) {
	p := juniper(t)
	b := layOut(p, quantity.US)
	pad := b.wear[0]
	start, limit := fmt.Sprintf("D%d", pad.row), fmt.Sprintf("F%d", pad.row)
	reading := formCell(b)
	packed := fmt.Sprintf("E%d", 2+slices.IndexFunc(b.sheet(shopName).rows, func(r row) bool { return len(r.cells) > 6 && r.cells[6].value == "Packed" }))
	for _, c := range []struct {
		sheet, at string
		value     any
		groups    bool // no group of the car is good
		trunk     bool // nor does the packing fit
	}{
		{legsName, "D5", "1010 mi", true, false},
		{legsName, "D5", nil, true, false},
		{wearName, start, "7/32", true, false},
		{wearName, limit, nil, true, false},
		{wearName, start, -1, true, false},
		{wearName, start, 1e6, true, false},
		{shopName, packed, "3 L", false, true},
		{shopName, packed, nil, false, true},
		{shopName, "D5", "about 400", false, false},
		{form.Sheet, reading, "about 7", false, false},
	} {
		t.Run(fmt.Sprint(c.sheet, c.at, c.value), func(t *testing.T) {
			t.Parallel()
			f, err := excelize.OpenReader(bytes.NewReader(written(t, p, quantity.US)))
			if err != nil {
				t.Fatal(err)
			}
			defer f.Close()
			if err := f.SetCellValue(c.sheet, c.at, c.value); err != nil {
				t.Fatal(err)
			}
			var out bytes.Buffer
			if err := f.Write(&out); err != nil {
				t.Fatal(err)
			}
			g := gridOf(t, resaved(t, out.Bytes()))
			if got, want := g.at(t, "Summary", "A3"), "NOT A NUMBER: "+c.sheet+"!"+c.at; got != want {
				t.Errorf("the Summary says %q, want %q", got, want)
			}
			for _, r := range g["Summary"] {
				if len(r) < 2 {
					continue
				}
				said := strings.Join(r, "|")
				switch status := strings.TrimSpace(r[1]); {
				case status == good || status == pastLimit || status == belowMargin || status == "the packing fits":
					if packing := status == "the packing fits"; packing && c.trunk || !packing && c.groups {
						t.Errorf("it is %q: %s", status, said)
					}
				}
			}
			if got := fieldOf(g, wearName, pad.row, wearStatus); (got == notNumber) != c.groups {
				t.Errorf("the Car sheet says %q", got)
			}
			if c.sheet == form.Sheet {
				if got := g.at(t, form.Sheet, "H"+strings.TrimPrefix(reading, "G")); got != notNumber {
					t.Errorf("the form says %q", got)
				}
			}
		})
	}
}

// formCell is the form's first cell for a tread depth.
func formCell(b *book) string {
	for _, s := range b.sheets {
		if s.name != form.Sheet {
			continue
		}
		for i, r := range s.rows {
			if len(r.cells) > 1 {
				if what, ok := r.cells[1].value.(string); ok && strings.HasPrefix(what, "tread") {
					return fmt.Sprintf("G%d", i+1)
				}
			}
		}
	}
	return ""
}

func fieldOf(g grid, sheet string, row, col int) string {
	if rows := g[sheet]; row <= len(rows) && col <= len(rows[row-1]) {
		return rows[row-1][col-1]
	}
	return ""
}
