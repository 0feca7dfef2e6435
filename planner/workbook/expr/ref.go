package expr

import (
	"strconv"
)

// Ref is a cell with the value it holds.
type Ref struct {
	Sheet    string
	Col, Row int // counted from 1
	V        Value

	far              bool // written with its sheet even on that sheet
	freeCol, freeRow bool // not pinned, so that a format follows its cells
}

// At is a cell that holds a number.
func At(sheet string, col, row int, v float64) Ref {
	return Ref{Sheet: sheet, Col: col, Row: row, V: Value{Num: v}}
}

// Num is the number it holds.
func (r Ref) Num() float64 { return r.V.Num }

// Far is the cell written with its sheet everywhere.
func (r Ref) Far() Ref { r.far = true; return r }

// Free is the cell with neither column nor row pinned.
func (r Ref) Free() Ref { r.freeCol, r.freeRow = true, true; return r }

// Down is the cell with its row pinned alone.
func (r Ref) Down() Ref { r.freeCol = true; return r }

// Across is the cell with its column pinned alone.
func (r Ref) Across() Ref { r.freeRow = true; return r }

// Value implements X.
func (r Ref) Value() Value { return r.V }

func (r Ref) write(b []byte, on string) []byte {
	if r.far || r.Sheet != on {
		b = append(b, '\'')
		b = append(b, r.Sheet...)
		b = append(b, "'!"...)
	}
	return r.name(b)
}

func (r Ref) binds() int { return atom }

// Name is the cell's address on its sheet.
func (r Ref) Name() string { return string(r.name(nil)) }

// UpTo is the address of the cells from it to another on its sheet.
func (r Ref) UpTo(last Ref) string { return r.Name() + ":" + last.Name() }

func (r Ref) name(b []byte) []byte {
	if !r.freeCol {
		b = append(b, '$')
	}
	b = letters(b, r.Col)
	if !r.freeRow {
		b = append(b, '$')
	}
	return strconv.AppendInt(b, int64(r.Row), 10)
}

// Column is the name of a column.
func Column(col int) string { return string(letters(nil, col)) }

// letters appends the name of a column.
func letters(b []byte, col int) []byte {
	if col > 26 {
		b = letters(b, (col-1)/26)
	}
	return append(b, byte('A'+(col-1)%26))
}

// Run is neighboring cells of one column or row, the first to the last.
type Run []Ref

// Value implements X: a run has none of its own, its functions have.
func (r Run) Value() Value { return none }

func (r Run) write(b []byte, on string) []byte {
	if len(r) == 0 {
		return append(b, '0')
	}
	if len(r) == 1 {
		return r[0].write(b, on)
	}
	b = append(r[0].write(b, on), ':')
	return r[len(r)-1].name(b)
}

func (r Run) binds() int { return atom }
