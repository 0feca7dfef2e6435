package varied

import (
	"math"
	"testing"

	"example.com/tripwear/planner/workbook/expr"
)

// TestFactor: at a run it is that run's, exactly, the plan's 1 before all; between
// two it is exact for an exponential of the input, and the highest run is reached.
func TestFactor(t *testing.T) {
	d := Dial{Planned: 0.8, Apart: 0.05, Below: 2, Above: 3}
	table := Table{Sheet: "Factors", First: 5}
	law := func(x float64) float64 { return math.Exp(6 * (x - d.Planned)) }
	var all []float64
	least, most := d.Range()
	for i := range d.Below + d.Above + 1 {
		all = append(all, law(least+float64(d.Apart*float64(i))))
	}
	row := table.Row(all)
	for x, tol := range map[float64]float64{0.8: 0, least: 1e-9, 0.83: 1e-8, 0.7: 1e-8, 0.949: 1e-8, most: 1e-8} {
		steps := d.Steps(expr.Num(x))
		run := d.Run(steps)
		got := Place{run, expr.F("a+1-b", steps, run)}.Factor(row).Value().Num
		if off := math.Abs(got/law(x) - 1); off > tol {
			t.Errorf("at %v: %v, want %v", x, got, law(x))
		}
	}
}

// TestRowsOnce: equal rows stand once, and a row of nothing but the plan's nowhere.
func TestRowsOnce(t *testing.T) {
	table := Table{Sheet: "Factors", First: 5}
	a, b, c := table.Row([]float64{1, 2}), table.Row([]float64{1, 3}), table.Row([]float64{1, 2 + 1e-12})
	if len(table.Rows) != 2 || a[0] != c[0] || b[0].Row != 6 || a[1].Col != 3 {
		t.Errorf("%v of %+v %+v %+v", table.Rows, a, b, c)
	}
	if table.Row([]float64{1, 1}) != nil || (Place{}).Factor(nil).Value().Num != 1 {
		t.Error("what changes nothing has a row")
	}
}
