package report

import (
	"slices"
	"strconv"
	"strings"

	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
)

const (
	labelWidth = 13
	cellWidth  = 9
	chanceText = 7
)

// legsShown picks the legs that fit the width: all of them, or the circuit days
// and the last leg, or the last of those.
func (p printer) legsShown(legs []plan.Leg) []int {
	room := (p.Width - labelWidth - 6 - chanceText) / cellWidth
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
	widths := slices.Concat(page.Columns{-labelWidth, 6}, slices.Repeat(page.Columns{cellWidth}, len(legs)), page.Columns{chanceText})
	var heads []string
	for _, j := range legs {
		heads = append(heads, "leg "+strconv.Itoa(j+1))
	}
	cells := func(label, now string, legs []string, chance string) []string {
		return slices.Concat([]string{label, now}, legs, []string{chance})
	}
	table := p.Table(widths, cells("", "now", heads, "limit")...)
	for _, l := range points {
		table.Row(cells(l.label, l.now, l.median, l.chance)...)
		if strings.Join(l.band, "")+l.below != "" {
			table.Row(cells(l.below, "", l.band, "")...)
		}
	}
}
