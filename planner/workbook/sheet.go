package workbook

import (
	"slices"
	"strings"
	"time"
	"unicode"

	"example.com/tripwear/planner/workbook/expr"
)

// cell is a value with its look. Rows are collected first and written as a
// stream at the end, because everything but rows must be in a sheet before.
type cell struct {
	value   any
	exact   expr.Value // the same, not rounded: what formulas that use the cell go on with
	x       expr.X     // that gives it; nil for a constant
	look    look
	over    int      // how many columns it is joined over; 0 is one
	planned bool     // only the program's draws give it: stale once an input changes
	link    expr.Ref // where its figure comes from; none without a sheet
}

type row struct {
	cells  []cell
	aside  []cell  // hidden, to the right of the printed columns
	height float64 // points
}

// merge joins the cells of one row, from column a to b, counted from 1.
type merge struct{ row, a, b int }

// sheet is one sheet as it is being laid out.
type sheet struct {
	name    string
	widths  []float64 // of the printed columns, in digits
	aside   int       // hidden columns to the right of them
	hidden  bool      // the whole sheet
	wide    bool      // landscape
	head    int       // rows that stay in sight and print on every page
	side    int       // columns that stay in sight
	rows    []row
	merges  []merge
	breaks  []int // rows that begin a page
	printed int   // rows that print by default; 0 is all
	titles  int   // the first of the head's rows that print again; 0 is the first
	charts  []chart
	toCome  int // further rows of charts that share the page
	rules   []*rule
	marks   []mark
	banner  int // row that tells of changed inputs; 0 is none
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
	return cell{value: s, exact: expr.Text(s).Value(), look: l}
}

// number is a numeric cell, or a dash where the plan has no figure.
func number(l look, format string, v float64) cell {
	if !finite(v) {
		l.across = "right"
		return text(l, "–")
	}
	l.format = format
	return cell{value: expr.Figures(v, kept), exact: expr.Value{Num: v}, look: l}
}

// input is a cell to write in. It reads as it was written; formulas go on with
// what the plan has.
func input(format string, v float64) cell {
	c := number(look{input: true}, format, expr.Tidy(v))
	c.exact.Num = v
	return c
}

// live is a cell that holds an expression; a dash where it works out to no
// figure.
func live(l look, format string, x expr.X) cell {
	var c cell
	if v := x.Value(); v.IsText {
		l.format = format
		c = text(l, v.Text)
	} else if c = number(l, format, v.Num); !finite(v.Num) {
		return c
	}
	if _, constant := x.(expr.Num); !constant {
		c.x = x
	}
	return c
}

// asPlanned marks a cell whose figure only the program's draws give: it is
// struck out once an input has changed.
func asPlanned(c cell) cell {
	c.planned = true
	return c
}

// day is a date cell; the time of day is dropped.
func day(l look, t time.Time) cell {
	l.format = asDate
	y, m, d := t.Date()
	return cell{value: time.Date(y, m, d, 0, 0, 0, 0, time.UTC), look: l}
}

// blank is a cell with a look and no value.
func blank(l look) cell { return cell{exact: empty, look: l} }

var empty = expr.Text("").Value()

// at is the cell in a column of a row, holding a number.
func (s *sheet) at(col, row int, v float64) expr.Ref { return expr.At(s.name, col, row, v) }

// draft is a row in the making.
type draft struct {
	s      *sheet
	row    int
	cells  []cell // by column
	hidden []cell
}

// draft begins the next row, blank all over.
func (s *sheet) draft(l look) *draft {
	d := &draft{s: s, row: s.next(), cells: make([]cell, len(s.widths))}
	for i := range d.cells {
		d.cells[i] = blank(l)
	}
	return d
}

// put fills a column.
func (d *draft) put(col int, c cell) expr.Ref {
	d.cells[col-1] = c
	return d.at(col)
}

// at is a column's cell as it was filled.
func (d *draft) at(col int) expr.Ref {
	return expr.Ref{Sheet: d.s.name, Col: col, Row: d.row, V: d.cells[col-1].exact}
}

// beside is the ith hidden cell, from 0, holding what it holds or will hold.
func (d *draft) beside(i int, v expr.Value) expr.Ref {
	return expr.Ref{Sheet: d.s.name, Col: len(d.s.widths) + 2 + i, Row: d.row, V: v}
}

// hide appends a cell in the hidden columns.
func (d *draft) hide(c cell) expr.Ref {
	d.hidden = append(d.hidden, c)
	return d.beside(len(d.hidden)-1, c.exact)
}

// add appends the row to the sheet, as high as its texts need or as said.
func (d *draft) add(high ...float64) {
	if len(high) > 0 {
		d.s.addHigh(high[0], d.cells...)
	} else {
		d.s.add(d.cells...)
	}
	if len(d.hidden) > 0 {
		d.s.hide(d.row, d.hidden...)
	}
}

// next is the number of the row that add would append.
func (s *sheet) next() int { return len(s.rows) + 1 }

// add appends a row as high as its texts need and returns its number.
func (s *sheet) add(cells ...cell) int {
	height := 0.0
	for i, c := range cells {
		if t, ok := c.value.(string); ok && i < len(s.widths) {
			height = max(height, c.look.textHeight(t, sum(s.widths[i:i+max(1, c.over)])))
		}
	}
	return s.addHigh(max(height, lineHeight+linePad), cells...)
}

func (s *sheet) addHigh(height float64, cells ...cell) int {
	s.rows = append(s.rows, row{cells: cells, height: min(height, highest)})
	n := len(s.rows)
	for i, c := range cells {
		if c.over > 1 {
			s.merges = append(s.merges, merge{n, i + 1, i + c.over})
		}
	}
	return n
}

// span appends one text across all columns.
func (s *sheet) span(l look, t string) int {
	return s.add(joined(text(l, t), len(s.widths))...)
}

// joined is a cell over so many columns, with the empty ones it covers.
func joined(c cell, columns int) []cell {
	c.over = columns
	out := []cell{c}
	for len(out) < columns {
		out = append(out, blank(c.look))
	}
	return out
}

// title opens the sheet with its name and what it shows; both stay in sight.
func (s *sheet) title(title, note string) {
	s.span(look{weight: banner}, title)
	s.span(look{weight: quiet}, note)
	s.head = 2
}

// switched opens a sheet whose note says what the switch on the Card shows.
func (s *sheet) switched(title, decided, stands string) {
	s.title(title, decided)
	s.rows[1].cells = joined(live(look{weight: quiet}, "", ifDecided(expr.Text(decided), expr.Text(stands))), len(s.widths))
}

// warn adds the line that tells of changed inputs; it is empty until then.
func (s *sheet) warn(x expr.X) {
	l := look{weight: warning}
	s.banner = s.addHigh(l.textHeight(minutesMessage, sum(s.widths))+linePad, joined(live(l, "", x), len(s.widths))...)
	s.head = len(s.rows)
}

// hide puts cells beside a row, in the hidden columns.
func (s *sheet) hide(row int, cells ...cell) {
	s.rows[row-1].aside = append(s.rows[row-1].aside, cells...)
	s.aside = max(s.aside, len(s.rows[row-1].aside))
}

// section opens a table with a heading.
func (s *sheet) section(name string) {
	s.keepRows(4) // no heading stands alone at the foot of a page
	if !slices.Contains(s.breaks, s.next()) {
		s.gap()
	}
	s.span(look{weight: heading}, name)
}

// Heads of columns: of text, of figures, and of what is centered.
func left(name string) cell { return text(look{weight: header}, name) }

func right(name string) cell { return text(look{weight: header, across: "right"}, name) }

func center(name string) cell { return text(look{weight: header, across: "center"}, name) }

// heads adds the heads of the sheet's one table, which stay in sight.
func (s *sheet) heads(cells ...cell) {
	s.add(cells...)
	s.head = len(s.rows)
}

func (s *sheet) gap() { s.addHigh(8) }

// pageBreak lets a page begin with the next row.
func (s *sheet) pageBreak() { s.breaks = append(s.breaks, s.next()) }

func sum(widths []float64) float64 {
	total := 0.0
	for _, w := range widths {
		total += w
	}
	return total
}

const (
	lineHeight = 13  // points, of 10-point text
	linePad    = 2   // points above and below a text
	highest    = 409 // points, as high as the format allows a row
)

// textHeight estimates the points a wrapped text takes in a column so many
// digits wide. Spreadsheets do not agree on growing rows by themselves, and
// none does for merged cells.
func (l look) textHeight(t string, width float64) float64 {
	size := 1.0 // of the text against plain text
	switch {
	case l.weight == banner:
		size = 1.7
	case l.weight == strong || l.weight == header || l.weight == warning || l.weight >= alert || l.total:
		size = 1.08
	}
	const letters = 1.1 // letters in the width of a digit, on the average
	lines := 0
	for _, paragraph := range strings.Split(t, "\n") {
		lines += wrapped(paragraph, max(4, width*letters/size))
	}
	return float64(float64(lines)*lineHeight*max(1, size)) + linePad
}

// wrapped counts the lines of a text broken between words.
func wrapped(t string, room float64) int {
	lines, used := 1, 0.0
	for _, word := range strings.Fields(t) {
		n := float64(len([]rune(word)))
		if used > 0 {
			n++ // the space before it
		}
		if used > 0 && used+n > room {
			lines, used, n = lines+1, 0, n-1
		}
		for n > room {
			lines, n = lines+1, n-room
		}
		used += n
	}
	return lines
}
