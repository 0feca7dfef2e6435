package workbook

import (
	"slices"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner/workbook/expr"
)

// tone is how a conditional format shows: by weight and strokes, not by
// color alone, so that it reads in black and white.
type tone int

const (
	stale tone = iota // struck out: as planned, and an input has changed
	low               // bold on gray with a frame: at or below the margin
	out               // white on dark: at or below the limit
)

// mark is a conditional format: the formula is written for the first cell.
type mark struct {
	cells string
	when  expr.X
	tone  tone
}

func (t tone) style() *excelize.Style {
	switch t {
	case low:
		return &excelize.Style{Font: &excelize.Font{Bold: true, Color: ink}, Fill: filled(shade), Border: framed(ink, thin)}
	case out:
		return &excelize.Style{Font: &excelize.Font{Bold: true, Color: paper}, Fill: filled(alarm), Border: framed(ink, thin)}
	case stale: // off any dark ground
	}
	return &excelize.Style{Font: &excelize.Font{Strike: true, Italic: true, Color: faint}, Fill: filled(paper)}
}

// tone is the style number of a tone in the workbook.
func (s *styles) tone(t tone) (int, error) {
	if id, ok := s.tones[t]; ok {
		return id, nil
	}
	id, err := s.file.NewConditionalStyle(t.style())
	if err != nil {
		return 0, err
	}
	s.tones[t] = id
	return id, nil
}

// mark adds a conditional format.
func (s *sheet) mark(from, to expr.Ref, when expr.X, t tone) {
	s.marks = append(s.marks, mark{from.Free().UpTo(to.Free()), when, t})
}

// word marks texts that are a word.
func (s *sheet) word(from, to expr.Ref, word string, t tone) {
	s.mark(from, to, expr.F("a=b", from.Free(), expr.Text(word)), t)
}

// wordAt marks one text that is a word.
func (s *sheet) wordAt(at expr.Ref, word string, t tone) {
	s.marks = append(s.marks, mark{at.Free().Name(), expr.F("a=b", at, expr.Text(word)), t})
}

// heated strikes out cells that do not follow other lengths of sessions. It
// goes before the marks of levels.
func (s *sheet) heated(from, to expr.Ref) {
	when := expr.F("LEFT(a,b)=c", s.at(1, s.banner, 0), expr.Num(len(minutesChanged)), expr.Text(minutesChanged))
	s.mark(from, to, when, stale)
	n := len(s.marks) - 1
	s.marks = slices.Insert(s.marks[:n], 0, s.marks[n])
}

// strike marks the cells that are as planned, a run of a row at a time.
func (s *sheet) strike() {
	if s.banner == 0 {
		return
	}
	changed := expr.F(`a<>""`, s.at(1, s.banner, 0))
	for r, line := range s.rows {
		for i := 0; i < len(line.cells); i++ {
			if !line.cells[i].planned {
				continue
			}
			from := i
			for i+1 < len(line.cells) && line.cells[i+1].planned {
				i++
			}
			s.mark(s.at(from+1, r+1, 0), s.at(i+1, r+1, 0), changed, stale)
		}
	}
}

// format puts the conditional formats on the sheet.
func (s *sheet) format(f *excelize.File, st *styles) error {
	s.strike()
	for _, m := range s.marks {
		id, err := st.tone(m.tone)
		if err != nil {
			return err
		}
		if err := f.SetConditionalFormat(s.name, m.cells, []excelize.ConditionalFormatOptions{
			{Type: "formula", Criteria: expr.Formula(m.when, s.name), Format: &id, StopIfTrue: m.tone == out},
		}); err != nil {
			return err
		}
	}
	return nil
}
