package report

import (
	"slices"
	"strconv"
	"strings"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
)

// columns are the widths of a table's columns: text stands to the right, or,
// where the width is negative, to the left and is cut. 0 takes all its text.
type columns []int

// fit is the width of a column that is n wide at 80 columns and takes what the
// printer has more, or gives what it has less.
func (p printer) fit(n int) int { return max(8, n+p.width-width) }

// row writes a line of a table.
func (p printer) row(widths columns, cells ...string) {
	var b strings.Builder
	for i, c := range cells {
		switch n := widths[i]; {
		case n < 0:
			b.WriteString(pad(cut(c, -n), -n))
		case n > 0:
			b.WriteString(padLeft(c, n))
		case n == 0:
			b.WriteString(c)
		}
	}
	p.line("%s", b.String())
}

const (
	labelWidth = 13
	cellWidth  = 9
	chanceText = 7
)

// legsShown picks the legs that fit the width: all of them, or the circuit days
// and the last leg, or the last of those.
func (p printer) legsShown(legs []plan.Leg) []int {
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

// levels is what a table shows of one point, leg by leg.
type levels struct {
	label, now   string
	median, band []string // bands "" where there are none
	below        string   // the label, beside the bands
	chance       string
}

// table writes a header of leg numbers and, for each point, its medians and,
// below them, its bands.
func (p printer) table(legs []int, points []levels) {
	widths := slices.Concat(columns{-labelWidth, 6}, slices.Repeat(columns{cellWidth}, len(legs)), columns{chanceText})
	line := func(label, now string, cells []string, chance string) {
		p.row(widths, slices.Concat([]string{label, now}, cells, []string{chance})...)
	}
	var heads []string
	for _, j := range legs {
		heads = append(heads, "leg "+strconv.Itoa(j+1))
	}
	line("", "now", heads, "limit")
	for _, l := range points {
		line(l.label, l.now, l.median, l.chance)
		if strings.Join(l.band, "")+l.below != "" {
			line(l.below, "", l.band, "")
		}
	}
}
