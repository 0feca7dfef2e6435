package workbook

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner/workbook/expr"
)

// paper sizes of the open format
const (
	letter = 1
	a4     = 9
)

// begin writes into the file all that is not rows. The order matters: page
// set-up, rules, protection and charts before the stream begins; panes and
// widths before its first row; looks in the order of the cells, since they are
// numbered.
func (s *sheet) begin(f *excelize.File, st *styles, page page) (*excelize.StreamWriter, error) {
	// a chart's corner is counted in columns, so widths come before charts
	if err := errors.Join(s.setUp(f, page), s.setWidths(f), s.draw(f), s.validate(f), s.format(f, st), s.protect(f), s.link(f)); err != nil {
		return nil, err
	}
	for i := range s.length() {
		for _, cells := range s.cellsOf(i + 1) {
			for _, c := range cells {
				if _, err := st.id(c.look); err != nil {
					return nil, err
				}
			}
		}
	}
	w, err := f.NewStreamWriter(s.name)
	if err != nil {
		return nil, err
	}
	return w, s.frame(w)
}

// protect locks the formulas, without a password: it keeps fingers off them,
// not owners.
func (s *sheet) protect(f *excelize.File) error {
	return f.ProtectSheet(s.name, &excelize.SheetProtectionOptions{
		SelectLockedCells: true, SelectUnlockedCells: true, FormatCells: true, FormatColumns: true, FormatRows: true,
	})
}

// length is how many rows the sheet has.
func (s *sheet) length() int { return max(len(s.rows), s.lastFigure()) }

// cellsOf gives the cells of row r: those printed, those hidden beside them
// and a chart's figures.
func (s *sheet) cellsOf(r int) [3][]cell {
	if r > len(s.rows) {
		return [3][]cell{2: s.figures(r)}
	}
	return [3][]cell{s.rows[r-1].cells, s.rows[r-1].aside, s.figures(r)}
}

// stream writes the rows. All looks must be known: it only reads what sheets
// share, so that they can be written side by side.
func (s *sheet) stream(w *excelize.StreamWriter, st *styles) error {
	for i := range s.length() {
		if err := s.write(w, st, i+1); err != nil {
			return err
		}
	}
	for _, m := range s.merges {
		if err := w.MergeCell(s.address(m.a, m.row), s.address(m.b, m.row)); err != nil {
			return err
		}
	}
	for _, r := range s.breaks {
		if err := w.InsertPageBreak(fmt.Sprintf("A%d", r)); err != nil {
			return err
		}
	}
	return w.Flush()
}

func (s *sheet) setWidths(f *excelize.File) error {
	set := func(column int, width float64) error {
		name := expr.Column(column)
		return f.SetColWidth(s.name, name, name, width)
	}
	for i, width := range s.widths {
		if err := set(i+1, width); err != nil {
			return err
		}
	}
	if len(s.charts) > 0 {
		if err := errors.Join(set(len(s.widths)+1, 4), set(s.figureColumn(), 30)); err != nil {
			return err
		}
	}
	if s.aside == 0 {
		return nil
	}
	return f.SetColVisible(s.name, expr.Column(len(s.widths)+2)+":"+expr.Column(len(s.widths)+1+s.aside), false)
}

// frame sets the panes.
func (s *sheet) frame(w *excelize.StreamWriter) error {
	corner := s.address(s.side+1, s.head+1)
	pane := "bottomLeft"
	if s.side > 0 {
		pane = "bottomRight"
	}
	return w.SetPanes(&excelize.Panes{
		Freeze: true, XSplit: s.side, YSplit: s.head, TopLeftCell: corner, ActivePane: pane,
		Selection: []excelize.Selection{{Pane: pane, ActiveCell: corner, SQRef: corner}},
	})
}

// address is a cell's name on the sheet.
func (s *sheet) address(col, row int) string { return s.at(col, row, 0).Free().Name() }

// write streams row r with the figures beside it.
func (s *sheet) write(w *excelize.StreamWriter, st *styles, r int) error {
	height := 0.0
	if r <= len(s.rows) {
		height = s.rows[r-1].height
	}
	before := [3]int{0, len(s.widths) + 1, s.figureColumn() - 1} // columns
	var values []any
	for i, cells := range s.cellsOf(r) {
		if len(cells) == 0 {
			continue
		}
		for len(values) < before[i] {
			values = append(values, nil)
		}
		for _, c := range cells {
			id, err := st.id(c.look)
			if err != nil {
				return err
			}
			out := excelize.Cell{StyleID: id, Value: c.value}
			if c.x != nil {
				out.Formula = expr.Formula(c.x, s.name)
			}
			values = append(values, out)
		}
	}
	return w.SetRow(fmt.Sprintf("A%d", r), values, excelize.RowOpts{Height: height})
}

// page is what the pages of all sheets share.
type page struct {
	size        int
	left, right string // of the head
	below       string // of the foot, at the left
}

// setUp makes the sheet print one page wide, at the scale that it is laid out for.
func (s *sheet) setUp(f *excelize.File, p page) error {
	orientation := "portrait"
	if s.wide {
		orientation = "landscape"
	}
	// 15 mm at the sides leaves 180 mm on A4; what fits there in height and
	// width also fits on the shorter, wider Letter.
	side, end, running := 0.59, 0.75, 0.35 // in
	err := errors.Join(
		f.SetPageLayout(s.name, &excelize.PageLayoutOptions{Size: &p.size, Orientation: &orientation, AdjustTo: new(uint(100 * leastScale))}),
		f.SetPageMargins(s.name, &excelize.PageLayoutMarginsOptions{
			Left: &side, Right: &side, Top: &end, Bottom: &end, Header: &running, Footer: &running, Horizontally: new(true),
		}),
		f.SetHeaderFooter(s.name, &excelize.HeaderFooterOptions{
			OddHeader: "&L" + runningText(p.left) + "&R" + runningText(p.right),
			OddFooter: "&L" + runningText(p.below) + "&R" + "&A, page &P of &N",
		}))
	if err != nil || s.hidden { // which is not to be printed
		return err
	}
	last := cmp.Or(s.printed, max(1, len(s.rows)))
	all := expr.Run{s.at(1, 1, 0), s.at(len(s.widths), last, 0)}
	heads := fmt.Sprintf("'%s'!$%d:$%d", s.name, max(1, s.titles), s.head)
	return errors.Join(
		f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", Scope: s.name, RefersTo: expr.Formula(all, "")}),
		f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", Scope: s.name, RefersTo: heads}))
}

// runningText escapes the sign that begins a code in heads and feet, and
// keeps the text short: the format allows 255 characters in all.
func runningText(t string) string { return strings.ReplaceAll(clip(t, 60), "&", "&&") }
