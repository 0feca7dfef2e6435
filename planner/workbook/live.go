package workbook

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// ref is a numeric cell that formulas use, with the value it holds.
type ref struct {
	sheet    string
	col, row int
	v        float64
}

// in is the cell's address in a formula on a sheet.
func (r ref) in(s *sheet) string {
	name, err := excelize.CoordinatesToCellName(r.col, r.row, true)
	if err != nil {
		return "" // rows and columns are counted here, never read
	}
	if s != nil && r.sheet == s.name {
		return name
	}
	return "'" + r.sheet + "'!" + name
}

// upTo is the address of the cells from r to another on the same sheet.
func (r ref) upTo(to ref, s *sheet) string {
	other := to.in(s)
	return r.in(s) + ":" + other[strings.LastIndex(other, "!")+1:]
}

// at is the cell in a column of a row, holding v.
func (s *sheet) at(col, row int, v float64) ref { return ref{s.name, col, row, v} }

// live is a numeric cell with a formula and the value it works out to, or a
// dash where the plan has no figure.
func live(l look, format, formula string, v float64) cell {
	c := number(l, format, v)
	if finite(v) {
		c.formula = formula
	}
	return c
}

// told is a text cell with a formula and the text it works out to.
func told(l look, formula, t string) cell {
	c := text(l, t)
	c.formula = formula
	return c
}

// asPlanned marks a cell whose figure only the program's draws give: it is
// struck out once an input has changed.
func asPlanned(c cell) cell {
	c.planned = true
	return c
}

// literal writes a number into a formula so that it reads back the same.
func literal(v float64) string { return strconv.FormatFloat(v, 'G', -1, 64) }

// quoted writes a text into a formula.
func quoted(t string) string { return `"` + strings.ReplaceAll(t, `"`, `""`) + `"` }

// fixed prints a number as FIXED does: rounded half away from zero.
func fixed(v float64, digits int) string {
	scale := math.Pow(10, float64(digits))
	return strconv.FormatFloat(math.Round(v*scale)/scale, 'f', digits, 64)
}

// kept is how many figures a cell keeps: logarithms and powers may differ in
// the sixteenth from one kind of processor to another, and the file may not.
const kept = 12

// figures rounds to so many significant figures.
func figures(v float64, n int) float64 {
	if v == math.Trunc(v) && math.Abs(v) < 1e11 {
		return v
	}
	out, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', n, 64), 64)
	if err != nil {
		return v
	}
	return out
}

// tidy drops what rounding left behind the eleventh figure, so that an input
// reads as it was written.
func tidy(v float64) float64 { return figures(v, 11) }

// digits is how many decimals a unit shows, and what its figure is multiplied by.
func (u unit) digits() (decimals int, scale float64) {
	switch u.format {
	case asTenth:
		return 1, 1
	case asHundred:
		return 2, 1
	case asShare, asChance:
		return 0, 100
	}
	return 0, 1
}

// factor takes an SI measure to the unit, without holding it to none or more.
func (u unit) factor() float64 { return u.of(1) }

// around is a live band between two cells, never below none.
func (u unit) around(l look, s *sheet, lo, hi ref) cell {
	return u.between(l, lo.in(s), lo.v, hi.in(s), hi.v)
}

// between is a live band between two formulas, never below none.
func (u unit) between(l look, loFormula string, lo float64, hiFormula string, hi float64) cell {
	decimals, scale := u.digits()
	end := func(formula string, v float64) (string, string) {
		f := fmt.Sprintf("MAX(0,%s)", formula)
		if scale != 1 {
			f = literal(scale) + "*" + f
		}
		return fmt.Sprintf("FIXED(%s,%d,TRUE)", f, decimals), fixed(scale*math.Max(0, v), decimals)
	}
	fromF, from := end(loFormula, lo)
	toF, to := end(hiFormula, hi)
	l.across = "center"
	return told(l, fromF+`&" – "&`+toF, from+" – "+to)
}

// choose gives yes where the condition holds, else no.
func choose[T any](condition bool, yes, no T) T {
	if condition {
		return yes
	}
	return no
}
