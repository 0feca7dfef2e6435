package workbook

import (
	"example.com/tripwear/planner/card"
	"example.com/tripwear/planner/workbook/cardsheet"
	"example.com/tripwear/planner/workbook/expr"
)

const cardName = "Card"

// What the tables, charts and expected readings show.
const (
	asDecided = "as decided"
	asStands  = "as it stands"
)

// shows is the switch between the two.
var shows = expr.Ref{Sheet: cardName, Col: 3, Row: 1, V: expr.Text(asDecided).Value()}.Far()

// cardTones are the looks of a card's lines.
var cardTones = map[cardsheet.Tone]look{
	cardsheet.Title: {weight: strong}, cardsheet.Verdict: {weight: alert}, cardsheet.Heading: {weight: heading},
	cardsheet.Heads: {weight: header}, cardsheet.Strong: {weight: strong}, cardsheet.Quiet: {weight: quiet},
}

// cardOf is the first sheet, to take along: the plan's card, in two strips with a
// row a line, below the switch. Where an input has changed it has no verdict.
func cardOf(v view, c *card.Card) *sheet {
	const between = 3
	s := &sheet{name: cardName, widths: append(append(append([]float64{}, cardsheet.Widths...), between), cardsheet.Widths...)}
	d := s.draft(look{})
	copy(d.cells, append(joined(text(look{weight: quiet}, "The sheets show"), 2), joined(text(look{input: true, across: "center"}, asDecided), 3)...))
	d.add()
	s.restrict(shows, rule{words: []string{asDecided, asStands}})
	s.head = len(s.rows)
	a, b := cardsheet.Lines(c)
	for i := range max(len(a), len(b)) {
		d := s.draft(look{})
		for col, lines := range map[int][]cardsheet.Line{0: a, len(cardsheet.Widths) + 1: b} {
			if i < len(lines) {
				copy(d.cells[col:], v.cardLine(lines[i], i > 0 && lines[i-1].Tone == lines[i].Tone))
			}
		}
		d.add(lineHeight + 0.5)
	}
	return s
}

// cardLine is a line of a strip.
func (v view) cardLine(line cardsheet.Line, goesOn bool) []cell {
	l := cardTones[line.Tone]
	if line.Tone == cardsheet.Verdict && !v.Safe {
		l.weight = stop
	}
	var cells []cell
	for _, part := range line.Cells {
		l := l
		if part.Right {
			l.across = choose(part.Over == 1, "center", "right")
		}
		one := text(l, v.u.system.Words(part.Text))
		if line.Tone == cardsheet.Verdict {
			changed := choose(goesOn, "", "CHANGED: plan again")
			one = live(l, "", whenever(anyChanged, changed, expr.Text(one.value.(string))))
		}
		cells = append(cells, joined(one, part.Over)...)
	}
	if line.Tick {
		cells = append(cells, blank(look{input: true}))
	}
	return cells
}
