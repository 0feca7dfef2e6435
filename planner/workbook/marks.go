package workbook

import (
	"fmt"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner"
)

// tone is how a conditional format shows: by weight and strokes, not by
// colour alone, so that it reads in black and white.
type tone int

const (
	stale tone = iota // struck out: as planned, and an input has changed
	low               // bold on grey with a frame: at or below the margin
	out               // white on dark: at or below the limit
	fresh             // bold: an input that is not as planned
)

// mark is a conditional format: the formula is written for the first cell.
type mark struct {
	cells   string
	formula string
	tone    tone
}

func (t tone) style() *excelize.Style {
	frame := func() (out []excelize.Border) {
		for _, side := range []string{"left", "right", "top", "bottom"} {
			out = append(out, excelize.Border{Type: side, Color: ink, Style: 1})
		}
		return out
	}
	fill := func(color string) excelize.Fill {
		return excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{color}}
	}
	switch t {
	case stale:
		return &excelize.Style{Font: &excelize.Font{Strike: true, Italic: true, Color: faint}, Fill: fill(paper)} // off any dark ground
	case low:
		return &excelize.Style{Font: &excelize.Font{Bold: true, Color: ink}, Fill: fill(shade), Border: frame()}
	case out:
		return &excelize.Style{Font: &excelize.Font{Bold: true, Color: paper}, Fill: fill(alarm), Border: frame()}
	default:
		return &excelize.Style{Font: &excelize.Font{Bold: true, Color: ink}, Border: frame()}
	}
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

// judge marks one column of levels against a limit and a margin below it,
// both in cells of the sheet.
func (s *sheet) judge(from, to ref, limit, margin string) {
	first := from.in(s)
	s.marks = append(s.marks,
		mark{from.upTo(to, s), fmt.Sprintf("%s<=%s", relative(first), limit), out},
		mark{from.upTo(to, s), fmt.Sprintf("%s<=%s", relative(first), margin), low})
}

// heated strikes out cells that do not follow other lengths of sessions. It
// goes before what judges a level.
func (s *sheet) heated(from, to ref) {
	m := mark{from.upTo(to, s), fmt.Sprintf("LEFT($A$%d,%d)=%s", s.banner, len(minutesChanged), quoted(minutesChanged)), stale}
	s.marks = append([]mark{m}, s.marks...)
}

// heats says whether a point's wear goes by how hot a session gets, so that
// a rate a lap holds for sessions of one length only.
func heats(m planner.Measure) bool { return m == planner.PadLining || m == planner.Crack }

// relative frees a cell's name, so that a format follows its cells.
func relative(name string) string {
	var out []rune
	for _, r := range name {
		if r != '$' {
			out = append(out, r)
		}
	}
	return string(out)
}

// strike marks the cells that are as planned, a run of a row at a time.
func (s *sheet) strike() error {
	if s.banner == 0 {
		return nil
	}
	changed := fmt.Sprintf(`$A$%d<>""`, s.banner)
	for r, line := range s.rows {
		for i := 0; i < len(line.cells); i++ {
			if !line.cells[i].planned {
				continue
			}
			from := i
			for i+1 < len(line.cells) && line.cells[i+1].planned {
				i++
			}
			a, b, err := corners(from+1, r+1, i+1, r+1)
			if err != nil {
				return err
			}
			s.marks = append(s.marks, mark{a + ":" + b, changed, stale})
		}
	}
	return nil
}

// format puts the conditional formats on the sheet.
func (s *sheet) format(f *excelize.File, st *styles) error {
	if err := s.strike(); err != nil {
		return err
	}
	for _, m := range s.marks {
		id, err := st.tone(m.tone)
		if err != nil {
			return err
		}
		if err := f.SetConditionalFormat(s.name, relative(m.cells), []excelize.ConditionalFormatOptions{
			{Type: "formula", Criteria: m.formula, Format: &id, StopIfTrue: m.tone == out},
		}); err != nil {
			return err
		}
	}
	return nil
}
