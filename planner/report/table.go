package report

import (
	"strconv"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
)

const (
	labelWidth = 13
	cellWidth  = 9
	chanceText = 7
)

// columns picks the legs that fit the width: all of them, or the circuit days
// and the last leg, or the last of those.
func (p printer) columns(legs []plan.Leg) []int {
	room := (p.width - labelWidth - 6 - chanceText) / cellWidth
	var all, days []int
	for j, l := range legs {
		if l.Kind != profiles.StopLeg {
			all = append(all, j)
		}
		if l.Kind == profiles.CircuitLeg || j == len(legs)-1 {
			days = append(days, j)
		}
	}
	pick := all
	if len(pick) > room {
		pick = days
	}
	return pick[max(0, len(pick)-room):]
}

// row is one line of a table: a label, the value now, and a cell a leg.
type row struct {
	label, now string
	cells      [][2]string // median and band
	chance     string
}

// table writes a header of leg numbers and the rows, each with its medians
// and, below them, its bands.
func (p printer) table(legs []int, rows []row) {
	head := pad("", labelWidth) + padLeft("now", 6)
	for _, j := range legs {
		head += padLeft("leg "+strconv.Itoa(j+1), cellWidth)
	}
	p.line("%s", head+padLeft("limit", chanceText))
	for _, r := range rows {
		top := pad(cut(r.label, labelWidth), labelWidth) + padLeft(r.now, 6)
		band, any := pad("", labelWidth+6), false
		for _, c := range r.cells {
			top += padLeft(c[0], cellWidth)
			band += padLeft(c[1], cellWidth)
			any = any || c[1] != ""
		}
		p.line("%s", top+padLeft(r.chance, chanceText))
		if any {
			p.line("%s", band)
		}
	}
}
