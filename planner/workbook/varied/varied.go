// Package varied is the arithmetic of inputs that no formula has a law for: the
// model was run at some of their values, and cells between two runs go by both.
package varied

import (
	"fmt"

	"example.com/tripwear/planner/workbook/expr"
)

// Table is the rows of factors on a sheet, equal ones written once.
type Table struct {
	Sheet string
	First int // row
	Rows  [][]float64
	at    map[string]int
}

// Columns before a row's factors.
const ahead = 1

// exact is how many figures tell one row from another.
const exact = 9

// Row is the cells of a row of factors; none where all are 1.
func (t *Table) Row(factors []float64) expr.Run {
	same := true
	for i, f := range factors {
		factors[i] = expr.Figures(f, exact)
		same = same && factors[i] == 1
	}
	if same {
		return nil
	}
	key := fmt.Sprint(factors)
	n, ok := t.at[key]
	if !ok {
		if t.at == nil {
			t.at = map[string]int{}
		}
		n = len(t.Rows)
		t.at[key], t.Rows = n, append(t.Rows, factors)
	}
	var out expr.Run
	for i, f := range factors {
		out = append(out, expr.At(t.Sheet, 1+ahead+i, t.First+n, f))
	}
	return out
}

// Dial is an input with runs of the model at values that lie evenly about the
// plan's, so many below and so many above it.
type Dial struct {
	Planned, Apart float64
	Below, Above   int
}

// Turns says whether there is any value beside the plan's.
func (d Dial) Turns() bool { return d.Below+d.Above > 0 }

// Range is from the lowest run to the highest.
func (d Dial) Range() (least, most float64) {
	return d.Planned - float64(d.Apart*float64(d.Below)), d.Planned + float64(d.Apart*float64(d.Above))
}

// Place is where an input stands among the runs: the run at or below it, counted
// from 1, and how far it is on to the next, 0 to 1.
type Place struct{ Run, On expr.X }

// Steps is how many runs below the input, and parts of one, the lowest lies.
func (d Dial) Steps(input expr.X) expr.X {
	return expr.F("(a-b)/c+d", input, expr.Num(d.Planned), expr.Num(d.Apart), expr.Num(float64(d.Below)))
}

// Run is the run at or below the steps, never the highest.
func (d Dial) Run(steps expr.X) expr.X {
	return expr.F("MAX(1,MIN(a,INT(b)+1))", expr.Num(float64(d.Below+d.Above)), steps)
}

// Factor is what lies between two factors of a row: as one is to the other, so the
// steps between, which is exact for a power of the input's exponential.
func (p Place) Factor(row expr.Run) expr.X {
	if row == nil {
		return expr.Num(1)
	}
	return expr.F("INDEX(a,b)*(INDEX(a,b+1)/INDEX(a,b))^c", row, p.Run, p.On)
}
