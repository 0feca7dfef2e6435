package workbook

import (
	"example.com/tripwear/planner/card"
	"example.com/tripwear/planner/workbook/cardsheet"
	"example.com/tripwear/planner/workbook/expr"
)

const cardName = "Card"

// cardTones are the looks of a card's lines.
var cardTones = map[cardsheet.Tone]look{
	cardsheet.Title: {weight: strong}, cardsheet.Verdict: {weight: alert}, cardsheet.Heading: {weight: heading},
	cardsheet.Heads: {weight: header}, cardsheet.Strong: {weight: strong}, cardsheet.Quiet: {weight: quiet},
}

// cardOf is the first sheet, to take along: the plan's card. Where an input has
// changed it has no verdict.
func cardOf(v view) *sheet {
	s := &sheet{name: cardName, widths: cardsheet.Widths}
	for _, line := range cardsheet.Lines(card.Of(v.Plan, v.u.system)) {
		l := cardTones[line.Tone]
		if line.Tone == cardsheet.Verdict && !v.Safe {
			l.weight = stop
		}
		if line.Tone == cardsheet.Heading {
			s.keepRows(4)
		}
		var cells []cell
		for _, c := range line.Cells {
			l := l
			if c.Right {
				l.across = "right"
			}
			one := text(l, v.u.system.Words(c.Text))
			if line.Tone == cardsheet.Verdict {
				one = live(l, "", whenever(anyChanged, "CHANGED: plan again", expr.Text(one.value.(string))))
			}
			cells = append(cells, joined(one, c.Over)...)
		}
		if line.Tick {
			cells = append(cells, blank(look{input: true}))
		}
		s.add(cells...)
		if line.Tone == cardsheet.Verdict {
			s.head = len(s.rows)
		}
	}
	return s
}
