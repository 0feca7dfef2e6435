package workbook

import (
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
	if points > s.left()-slackPoints && !slices.Contains(s.breaks, s.next()) {
		s.pageBreak()
	}
}

// slackPoints is what programs differ in over a page.
const slackPoints = 12

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
	head := s.again()
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

// leastScale is what every sheet is printed at: type of 10 points at 8. Fitted to
// a width, pages would hold more or less with each machine's fonts.
const leastScale = 0.8

// paper is what one page holds, in points.
func (s *sheet) paper() (width, height float64) {
	if s.wide {
		return wideWidth, wideHeight
	}
	return uprightWidth, uprightHeight
}

// room is how many points of rows a page holds.
func (s *sheet) room() float64 {
	_, height := s.paper()
	return height / leastScale
}

// again is how high the rows are that every page repeats.
func (s *sheet) again() float64 {
	high := 0.0
	for _, r := range s.rows[max(0, s.titles-1):s.head] {
		high += r.height
	}
	return high
}
