package workbook

import (
	"github.com/xuri/excelize/v2"
)

// Every color of the workbook. Each tone also differs in gray, and no
// meaning hangs on color only.
const (
	ink      = "1E2A32"
	faint    = "5F6B73"
	hairline = "AEB6BB"
	shade    = "E4E8EA" // headers
	paper    = "FFFFFF"
	inputTan = "FFF6DC"
	alarm    = "7A1F14"
	face     = "Arial"
)

// Number formats: no more digits than the model is good for.
const (
	asWhole   = "#,##0"
	asTenth   = "0.0"
	asHundred = "0.00"
	asShare   = "0 %"
	// a chance from a finite number of draws is never none or certain
	asChance = `[<0.005]"<1 %";[>=0.995]">99 %";0 %`
	asDate   = "d mmm yyyy"
	asLap    = "[m]:ss.0"
	asText   = "@"
)

// weight is how loud a cell is.
type weight int

const (
	plain weight = iota
	strong
	quiet   // bands and notes
	banner  // the sheet's title
	heading // of a table
	header  // column heads
	warning
	calm // status words, from nothing to do ...
	alert
	act // ... to the loudest
	stop
)

// look is how a cell is drawn; equal looks share one style.
type look struct {
	weight weight
	format string
	across string // left, center or right; "" by the kind of value
	input  bool   // to be filled in: unlocked and marked
	box    bool   // with a rule below
	over   bool   // with a rule above
	total  bool   // the same, and bold
}

// styles turns looks into the style numbers of one workbook.
type styles struct {
	file  *excelize.File
	ids   map[look]int
	tones map[tone]int
}

func newStyles(f *excelize.File) *styles {
	return &styles{file: f, ids: map[look]int{}, tones: map[tone]int{}}
}

func (s *styles) id(l look) (int, error) {
	if id, ok := s.ids[l]; ok {
		return id, nil
	}
	id, err := s.file.NewStyle(l.style())
	if err != nil {
		return 0, err
	}
	s.ids[l] = id
	return id, nil
}

// Lines of borders.
const thin, medium, dashed = 1, 2, 3

func filled(color string) excelize.Fill {
	return excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{color}}
}

// framed is a border all round.
func framed(color string, line int) (out []excelize.Border) {
	for _, side := range []string{"left", "right", "top", "bottom"} {
		out = append(out, excelize.Border{Type: side, Color: color, Style: line})
	}
	return out
}

func (l look) style() *excelize.Style {
	font := &excelize.Font{Family: face, Size: 10, Color: ink}
	style := &excelize.Style{
		Font:       font,
		Alignment:  &excelize.Alignment{Vertical: "center", Horizontal: l.across, WrapText: true},
		Protection: &excelize.Protection{Locked: !l.input},
	}
	if l.format != "" {
		style.CustomNumFmt = &l.format
		style.Alignment.WrapText = false
		if l.across == "" {
			style.Alignment.Horizontal = "right"
		}
	}
	if style.Alignment.Horizontal == "right" {
		style.Alignment.Indent = 1 // off the text that may follow
	}
	fill := func(color string) { style.Fill = filled(color) }
	edge := func(side, color string, line int) {
		style.Border = append(style.Border, excelize.Border{Type: side, Color: color, Style: line})
	}
	switch l.weight {
	case strong:
		font.Bold = true
	case quiet:
		font.Color = faint
	case banner:
		font.Bold, font.Size = true, 16
	case heading:
		font.Bold, font.Size = true, 11
		style.Alignment.Vertical = "bottom"
		style.Alignment.WrapText = false
		edge("bottom", ink, medium)
	case header:
		font.Bold = true
		style.Alignment.Vertical = "bottom"
		fill(shade)
		edge("bottom", ink, thin)
	case warning:
		font.Bold, font.Color = true, alarm
	case calm:
		edge("left", hairline, medium)
	case alert:
		font.Bold = true
		fill(shade)
		edge("left", ink, medium)
	case act:
		font.Bold, font.Color = true, paper
		fill(faint)
	case stop:
		font.Bold, font.Color = true, paper
		fill(alarm)
	}
	if l.box {
		edge("bottom", hairline, thin)
	}
	if l.total {
		font.Bold = true
	}
	if l.total || l.over {
		edge("top", ink, thin)
	}
	if l.input {
		fill(inputTan)
		style.Border = append(style.Border, framed(faint, dashed)...)
	}
	return style
}
