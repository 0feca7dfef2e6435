package workbook

import (
	"slices"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
)

// wearColumns is how many legs a block of the Wear sheet has side by side.
const wearColumns = 8

// wear is the matrix of sets and legs: share of life left with its band and
// the chance that the limit was crossed.
func (b *book) wear() *sheet {
	n := min(wearColumns, len(b.driven))
	s := &sheet{name: "Wear", wide: true, side: 2, widths: []float64{25, 10}}
	for range n { // few legs stand wider, so that the sheet prints at one size
		s.widths = append(s.widths, min(max(14, 98/float64(n)), 33))
	}
	s.widths = append(s.widths, 20)
	s.title("Wear", "Share of life left at each set's worst place after each leg, in %, as the car stands, nothing renewed. 0 % is at the limit or past it; the limit is the hard end, legal or safety.")
	for block := range slices.Chunk(b.driven, wearColumns) {
		if len(b.driven) > wearColumns {
			s.gap()
		}
		names := []cell{left("Set"), left("After leg")}
		for _, j := range block {
			names = append(names, center(b.legName(j)))
		}
		for len(names) < 2+n {
			names = append(names, left(""))
		}
		s.add(append(names, left("Leg that takes most"))...)
		for _, t := range b.p.Sets {
			s.keep(3 * (lineHeight + linePad))
			b.share(s, t, block, n)
		}
	}
	if len(b.driven) <= wearColumns {
		s.head = 3
	}
	return s
}

// share is the three rows of one set.
func (b *book) share(s *sheet, t planner.Set, block []int, n int) {
	most := "none stands out"
	if b.has(t.Most) {
		most = b.legName(t.Most)
	}
	if t.Kind == profiles.Bearing {
		b.chances(s, t, block, n, most)
		return
	}
	median := []cell{text(look{weight: strong}, t.Name), text(look{}, "median")}
	spread := []cell{text(look{weight: quiet}, t.PartName), text(look{weight: quiet}, "5 – 95 %")}
	for _, j := range block {
		level, around := b.left(t, j)
		level.look.weight, level.look.across = strong, "center"
		median = append(median, level)
		spread = append(spread, text(look{weight: quiet, across: "center"}, around))
	}
	s.add(append(pad(median, 2+n), text(look{}, most))...)
	s.add(spread...)
	b.crossed(s, t, "crossed", block, n)
}

// chances is the row of a hub, whose life is a chance and not a level.
func (b *book) chances(s *sheet, t planner.Set, block []int, n int, most string) {
	cells := []cell{text(look{weight: strong, box: true}, t.Name), text(look{box: true}, "lasts")}
	for _, j := range block {
		cells = append(cells, b.u.chance.in(look{weight: strong, box: true, across: "center"}, 1-t.After[j].PLimit))
	}
	for len(cells) < 2+n {
		cells = append(cells, blank(look{box: true}))
	}
	s.add(append(cells, text(look{box: true}, most))...)
}

// crossed is a set's row of chances, with the rule that closes it.
func (b *book) crossed(s *sheet, t planner.Set, name string, block []int, n int) {
	l := look{weight: quiet, box: true}
	cells := []cell{blank(l), text(l, name)}
	for _, j := range block {
		l := l
		l.across = "center"
		cells = append(cells, b.u.chance.in(l, t.After[j].PLimit))
	}
	for len(cells) < 3+n {
		cells = append(cells, blank(l))
	}
	s.add(cells...)
}

// pad fills a row with empty cells.
func pad(cells []cell, n int) []cell {
	for len(cells) < n {
		cells = append(cells, blank(look{}))
	}
	return cells
}
