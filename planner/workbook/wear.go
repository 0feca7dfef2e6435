package workbook

import (
	"slices"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/workbook/expr"
)

// wearColumns is how many legs a block of the Wear sheet has side by side.
const wearColumns = 8

// wearSheet is the sheet in the making.
type wearSheet struct {
	*sheet
	v       view
	all     worn
	abreast int // legs side by side
}

// matrix is the sets by the legs: nominal share of life left, live, with the
// band and the chance that the draws gave it.
func matrix(v view, all worn) *sheet {
	n := min(wearColumns, len(v.driven))
	s := wearSheet{&sheet{name: "Wear", wide: true, side: 2, widths: []float64{25, 20}}, v, all, n}
	for range n { // few legs stand wider, so that the sheet prints at one size
		s.widths = append(s.widths, min(max(13, 98/float64(n)), 33))
	}
	s.widths = append(s.widths, 20)
	s.title("Wear", "Share of life left at each set's worst place after each leg, in %, as the car stands, nothing renewed. 0 % is at the limit or past it; the limit is the hard end, legal or safety.")
	warn(s.sheet)
	for block := range slices.Chunk(v.driven, wearColumns) {
		if len(v.driven) > wearColumns {
			s.gap()
		}
		names := []cell{left("Set"), left("After leg")}
		for _, j := range block {
			names = append(names, center(v.legName(j)))
		}
		for len(names) < 2+n {
			names = append(names, left(""))
		}
		s.add(append(names, left("Leg that takes most, as planned"))...)
		if len(v.driven) <= wearColumns {
			s.head = len(s.rows)
		}
		for _, t := range v.Sets {
			s.keepRows(3)
			s.share(t, block)
		}
	}
	return s.sheet
}

// share is the rows of one set.
func (s wearSheet) share(t plan.Set, block []int) {
	most := "none stands out"
	if s.v.has(t.Most) {
		most = s.v.legName(t.Most)
	}
	left := kindOf(t.Kind).left
	if left == chanceLeft {
		s.chances(t, block, most)
		return
	}
	if left == shareLeft {
		s.nominal(t, block, most)
	}
	n := s.abreast
	bands := []cell{text(look{weight: quiet}, t.PartName), text(look{weight: quiet}, "5 – 95 %, as planned")}
	if left == marginLeft {
		bands = []cell{text(look{weight: strong}, t.Name), text(look{}, "to boil, as planned")}
	}
	for _, j := range block {
		level, around := s.v.leftOf(t, j)
		c := text(look{weight: quiet, across: "center"}, around)
		if left == marginLeft {
			c = level
			c.look.across = "center"
		}
		bands = append(bands, asPlanned(c))
	}
	s.add(pad(bands, 3+n)...)
	s.crossed(t, block)
}

// nominal is the row of the share of life left at a set's worst point.
func (s wearSheet) nominal(t plan.Set, block []int, most string) {
	cells := []cell{text(look{weight: strong}, t.Name), text(look{}, "nominal")}
	for _, j := range block {
		least := []expr.X{expr.Num(1)}
		for _, p := range t.Points {
			if st, ok := s.all.find(p).step(s.v, j); ok {
				least = append(least, st.share)
			}
		}
		cells = append(cells, live(look{weight: strong, across: "center"}, asShare, expr.F("MAX(0,a)", expr.Each("MIN", least))))
	}
	row := s.add(append(pad(cells, 2+s.abreast), asPlanned(text(look{}, most)))...)
	from, to := s.at(3, row, 0), s.at(2+s.abreast, row, 0)
	if heats(t) {
		s.heated(from, to)
	}
	s.mark(from, to, expr.F("a<=0", from.Free()), out)
}

// chances is the row of a hub, whose life is a chance and not a level.
func (s wearSheet) chances(t plan.Set, block []int, most string) {
	d := s.draft(look{box: true})
	d.put(1, text(look{weight: strong, box: true}, t.Name))
	d.put(2, text(look{box: true}, "lasts, as planned"))
	for i, j := range block {
		d.put(3+i, asPlanned(s.v.u.chance.in(look{weight: strong, box: true, across: "center"}, 1-t.After[j].PLimit)))
	}
	d.put(3+s.abreast, asPlanned(text(look{box: true}, most)))
	d.add()
}

// crossed is a set's row of chances, with the rule that closes it.
func (s wearSheet) crossed(t plan.Set, block []int) {
	l := look{weight: quiet, box: true}
	d := s.draft(l)
	d.put(2, text(l, "crossed, as planned"))
	l.across = "center"
	for i, j := range block {
		d.put(3+i, asPlanned(s.v.u.chance.in(l, t.After[j].PLimit)))
	}
	d.add()
}

// pad fills a row with empty cells.
func pad(cells []cell, n int) []cell {
	for len(cells) < n {
		cells = append(cells, blank(look{}))
	}
	return cells
}
