package workbook

import (
	"fmt"
	"slices"
	"strings"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
)

// wearColumns is how many legs a block of the Wear sheet has side by side.
const wearColumns = 8

// matrix is the sets by the legs: nominal share of life left, live, with the
// band and the chance that the draws gave it.
func (b *book) matrix() *sheet {
	n := min(wearColumns, len(b.driven))
	s := &sheet{name: "Wear", wide: true, side: 2, widths: []float64{25, 20}}
	for range n { // few legs stand wider, so that the sheet prints at one size
		s.widths = append(s.widths, min(max(13, 98/float64(n)), 33))
	}
	s.widths = append(s.widths, 20)
	s.title("Wear", "Share of life left at each set's worst place after each leg, in %, as the car stands, nothing renewed. 0 % is at the limit or past it; the limit is the hard end, legal or safety.")
	b.warn(s)
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
		s.add(append(names, left("Leg that takes most, as planned"))...)
		if len(b.driven) <= wearColumns {
			s.head = len(s.rows)
		}
		for _, t := range b.p.Sets {
			s.keepRows(3)
			b.share(s, t, block, n)
		}
	}
	return s
}

// share is the rows of one set.
func (b *book) share(s *sheet, t planner.Set, block []int, n int) {
	most := "none stands out"
	if b.has(t.Most) {
		most = b.legName(t.Most)
	}
	if t.Kind == profiles.Bearing {
		b.chances(s, t, block, n, most)
		return
	}
	if t.Kind != profiles.Fluid {
		nominal := []cell{text(look{weight: strong}, t.Name), text(look{}, "nominal")}
		for _, j := range block {
			nominal = append(nominal, b.worst(s, t, j))
		}
		row := s.next()
		s.add(append(pad(nominal, 2+n), asPlanned(text(look{}, most)))...)
		if t.Kind == profiles.Pads || t.Kind == profiles.Rotors {
			s.heated(s.at(3, row, 0), s.at(2+n, row, 0))
		}
		s.marks = append(s.marks, mark{s.at(3, row, 0).upTo(s.at(2+n, row, 0), s), relative(s.at(3, row, 0).in(s)) + "<=0", out})
	}
	head := choose(t.Kind == profiles.Fluid, t.Name, t.PartName)
	median := []cell{text(look{weight: choose(t.Kind == profiles.Fluid, strong, quiet)}, head), text(look{weight: quiet}, "5 – 95 %, as planned")}
	if t.Kind == profiles.Fluid {
		median[1] = text(look{}, "to boil, as planned")
	}
	for _, j := range block {
		level, around := b.left(t, j)
		if t.Kind == profiles.Fluid {
			level.look.across = "center"
			median = append(median, asPlanned(level))
			continue
		}
		median = append(median, asPlanned(text(look{weight: quiet, across: "center"}, around)))
	}
	s.add(pad(median, 3+n)...)
	b.crossed(s, t, block, n)
}

// worst is the nominal share of life left at a set's worst point after leg j.
func (b *book) worst(s *sheet, t planner.Set, j int) cell {
	least := 1.0
	var cells []string
	for _, p := range t.Points {
		_, st, ok := b.after(p, j)
		if !ok {
			continue
		}
		cells = append(cells, st.share.in(s))
		least = min(least, st.share.v)
	}
	return live(look{weight: strong, across: "center"}, asShare, fmt.Sprintf("MAX(0,MIN(1,%s))", strings.Join(cells, ",")), max(0, least))
}

// chances is the row of a hub, whose life is a chance and not a level.
func (b *book) chances(s *sheet, t planner.Set, block []int, n int, most string) {
	cells := []cell{text(look{weight: strong, box: true}, t.Name), text(look{box: true}, "lasts, as planned")}
	for _, j := range block {
		cells = append(cells, asPlanned(b.u.chance.in(look{weight: strong, box: true, across: "center"}, 1-t.After[j].PLimit)))
	}
	for len(cells) < 2+n {
		cells = append(cells, blank(look{box: true}))
	}
	s.add(append(cells, asPlanned(text(look{box: true}, most)))...)
}

// crossed is a set's row of chances, with the rule that closes it.
func (b *book) crossed(s *sheet, t planner.Set, block []int, n int) {
	l := look{weight: quiet, box: true}
	cells := []cell{blank(l), text(l, "crossed, as planned")}
	for _, j := range block {
		l := l
		l.across = "center"
		cells = append(cells, asPlanned(b.u.chance.in(l, t.After[j].PLimit)))
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
