package workbook

import (
	"math"
	"slices"
)

// What one page holds inside its margins on the smaller of A4 and Letter
// each way, in points.
const (
	uprightWidth, uprightHeight = 510, 684 // A4 across, Letter along
	wideWidth, wideHeight       = 707, 487 // Letter across, A4 along
)

// keep begins a new page if so many points do not fit on this one, so that a
// chart or a short table is not cut in two.
func (s *sheet) keep(points float64) {
	if points > s.left() && !slices.Contains(s.breaks, s.next()) {
		s.pageBreak()
	}
}

// keepRows is keep for so many rows of one line.
func (s *sheet) keepRows(n int) { s.keep(float64(n) * (lineHeight + linePad)) }

// left is how many points of rows this page still takes. A table longer than
// a page runs on, so whole pages do not count.
func (s *sheet) left() float64 {
	begun := 0
	if n := len(s.breaks); n > 0 {
		begun = s.breaks[n-1] - 1
	}
	used := 0.0
	head := 0.0
	for _, r := range s.rows[:s.head] {
		head += r.height
	}
	if begun > 0 {
		used = head // it prints again
	}
	for _, r := range s.rows[begun:] {
		if used += r.height; used > s.room() {
			used = head + r.height
		}
	}
	return s.room() - used
}

// room is how many points of rows a page holds once the columns are scaled to
// its width.
func (s *sheet) room() float64 {
	width, height := float64(uprightWidth), float64(uprightHeight)
	if s.wide {
		width, height = wideWidth, wideHeight
	}
	// at 10 points a digit is 7 pixels of 3/4 point and a column has 5 of padding
	columns := (float64(7*sum(s.widths)) + float64(5*float64(len(s.widths)))) * 0.75
	return height * math.Max(1, columns/width)
}
