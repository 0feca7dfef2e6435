package yearbook_test

import (
	"bytes"
	"math"
	"strconv"
	"testing"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/planner/yearbook"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// TestWrite: the same season gives the same bytes, in either system; the orders and
// the months come to as much as the season says, and what is replaced before
// leaving leaves new.
func TestWrite(t *testing.T) {
	f, first := randomcar.Demo(t, "juniper")
	second := first.Clone()
	second.ID, second.Name, second.Depart = "later", "Later", first.Depart.AddDate(0, 3, 0)
	s, err := planner.Season(f, []profiles.Trip{first, second}, planner.Options{Draws: 300})
	if err != nil {
		t.Fatal(err)
	}
	for _, units := range []quantity.System{quantity.US, quantity.Metric} {
		var once, again bytes.Buffer
		if err := yearbook.Write(&once, s, units); err != nil {
			t.Fatal(err)
		}
		if err := yearbook.Write(&again, s, units); err != nil || !bytes.Equal(once.Bytes(), again.Bytes()) {
			t.Error("not the same bytes", err)
		}
		book, err := excelize.OpenReader(&once)
		if err != nil {
			t.Fatal(err)
		}
		rows := func(sheet string) [][]string {
			rows, err := book.GetRows(sheet, excelize.Options{RawCellValue: true})
			if err != nil || len(rows) < 2 {
				t.Fatal(sheet, rows, err)
			}
			return rows[1:]
		}
		sum := func(sheet string, col int) float64 {
			total := 0.0
			for _, row := range rows(sheet) {
				x, err := strconv.ParseFloat(row[col], 64)
				if err != nil {
					t.Fatal(sheet, row, err)
				}
				total += x
			}
			return total
		}
		orders, months := 0.0, 0.0
		for _, o := range s.Orders {
			orders += o.Price
		}
		for _, m := range s.Months {
			months += m.Amount
		}
		if got := sum("Orders", 4); math.Abs(got-orders) > 0.01 {
			t.Errorf("orders come to %g, not %g", got, orders)
		}
		if money, purse := sum("Money", 1), sum("Calendar", 6); math.Abs(money-months) > 0.01 || math.Abs(purse-months) > 0.01 {
			t.Errorf("months come to %g, trips to %g, not %g", money, purse, months)
		}
		life := rows("Life") // the rear tires are replaced before the first trip
		if was, is := life[0][2], life[1][2]; was == "1" || is != "1" || life[0][0] != life[1][0] {
			t.Errorf("rear tires %s, then %s", was, is)
		}
	}
}
