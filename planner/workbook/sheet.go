package workbook

import (
	"strings"
	"unicode"

	"github.com/xuri/excelize/v2"
)

// cell is a value with its look. Rows are gathered first and written as a
// stream at the end, because everything but rows must be in a sheet before.
type cell struct {
	value any
	look  look
}

type row struct {
	cells  []cell
	height float64 // points
}

// merge joins the cells of one row, from column a to b, counted from 1.
type merge struct{ row, a, b int }

// sheet is one sheet as it is being laid out.
type sheet struct {
	name   string
	widths []float64 // of the printed columns, in digits
	wide   bool      // landscape
	head   int       // rows that stay in sight and print on every page
	side   int       // columns that stay in sight
	rows   []row
	merges []merge
	breaks []int // rows that begin a page
	charts []chart
	rules  []*excelize.DataValidation
	locked bool
}

// text is a string cell. An error in a cell begins with a number sign, so no text may.
func text(l look, s string) cell {
	s = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && r != '\n' {
			return ' '
		}
		return r
	}, s)
	if rest, ok := strings.CutPrefix(s, "#"); ok {
		s = "No. " + strings.TrimLeft(rest, "# ")
	}
	return cell{s, l}
}

// number is a numeric cell, or a dash where the plan has no figure.
func number(l look, format string, v float64) cell {
	if !finite(v) {
		l.across = "right"
		return cell{"–", l}
	}
	l.format = format
	return cell{v, l}
}

// blank is a cell with a look and no value.
func blank(l look) cell { return cell{nil, l} }

// next is the number of the row that add would append.
func (s *sheet) next() int { return len(s.rows) + 1 }

// add appends a row as high as its texts need and returns its number.
func (s *sheet) add(cells ...cell) int {
	height := 0.0
	for i, c := range cells {
		if t, ok := c.value.(string); ok && i < len(s.widths) {
			height = max(height, s.textHeight(c.look, t, s.widths[i]))
		}
	}
	return s.addHigh(max(height, lineHeight), cells...)
}

func (s *sheet) addHigh(height float64, cells ...cell) int {
	s.rows = append(s.rows, row{cells, height})
	return len(s.rows)
}

// span appends one text across all columns.
func (s *sheet) span(l look, t string) int {
	cells := make([]cell, len(s.widths))
	for i := range cells {
		cells[i] = blank(l)
	}
	cells[0] = text(l, t)
	n := s.addHigh(max(lineHeight, s.textHeight(l, t, s.width())), cells...)
	s.join(n, 1, len(s.widths))
	return n
}

// join merges columns a to b of a row.
func (s *sheet) join(row, a, b int) {
	if b > a {
		s.merges = append(s.merges, merge{row, a, b})
	}
}

// title opens the sheet with its name and what it shows; both stay in sight.
func (s *sheet) title(title, note string) {
	s.span(look{weight: banner}, title)
	s.span(look{weight: quiet}, note)
	s.head = 2
}

// section opens a table with a heading.
func (s *sheet) section(heading string) int {
	s.gap()
	return s.span(look{weight: part}, heading)
}

// heads appends a row of column heads.
func (s *sheet) heads(names ...string) int {
	cells := make([]cell, len(names))
	for i, n := range names {
		cells[i] = text(look{weight: header}, n)
	}
	return s.add(cells...)
}

func (s *sheet) gap() { s.addHigh(8) }

// pageBreak lets a page begin with the next row.
func (s *sheet) pageBreak() { s.breaks = append(s.breaks, s.next()) }

func (s *sheet) width() float64 {
	sum := 0.0
	for _, w := range s.widths {
		sum += w
	}
	return sum
}

const lineHeight = 14 // points, of 10-point text

// textHeight estimates the points a wrapped text takes in a column so many
// digits wide. Spreadsheets do not agree on growing rows by themselves, and
// none does for merged cells.
func (s *sheet) textHeight(l look, t string, width float64) float64 {
	lines := 0
	size := 1.0
	switch {
	case l.weight == banner:
		size = 1.6
	case l.weight >= act || l.weight == strong || l.weight == alert:
		size = 1.08
	}
	room := max(4, width/size-1)
	for _, paragraph := range strings.Split(t, "\n") {
		lines += wrapped(paragraph, room)
	}
	return float64(lines)*lineHeight*max(1, size-0.1) + 2
}

// wrapped counts the lines of a text broken between words.
func wrapped(t string, room float64) int {
	lines, used := 1, 0.0
	for _, word := range strings.Fields(t) {
		n := float64(len([]rune(word)))
		if used > 0 && used+1+n > room {
			lines, used = lines+1, 0
		}
		for n > room {
			lines, n = lines+1, n-room
		}
		used += n + 1
	}
	return lines
}
