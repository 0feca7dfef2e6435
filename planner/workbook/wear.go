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
	s.title("Wear", "Share of life left at each set's worst place after each leg, in %, as the car stands, nothing replaced. 0 % is at the limit or past it; the limit is the hard end, legal or safety.")
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
	loud, faint := look{weight: strong}, look{weight: quiet}
	bands := []cell{text(faint, t.PartName), text(faint, "5 – 95 %, as planned")}
	kind := kindOf(t.Kind).left
	switch kind {
	case chanceLeft: // a hub's life is a chance and not a level
		box, chance := look{box: true}, look{weight: strong, box: true, across: "center"}
		s.row(box, []cell{text(look{weight: strong, box: true}, t.Name), text(box, "lasts, as planned")}, block, func(j int) cell {
			return asPlanned(s.v.u.chance.in(chance, 1-t.After[j].PLimit))
		}, asPlanned(text(box, most)))
		return
	case shareLeft:
		s.nominal(t, block, asPlanned(text(look{}, most)))
	case marginLeft:
		bands = []cell{text(loud, t.Name), text(look{}, "to boil, as planned")}
	}
	s.row(look{}, bands, block, func(j int) cell {
		level, around := s.v.leftOf(t, j)
		if kind == shareLeft {
			level = text(faint, around)
		}
		level.look.across = "center"
		return asPlanned(level)
	})
	box, chance := look{weight: quiet, box: true}, look{weight: quiet, box: true, across: "center"}
	s.row(box, []cell{blank(box), text(box, "crossed, as planned")}, block, func(j int) cell {
		return asPlanned(s.v.u.chance.in(chance, t.After[j].PLimit))
	})
}

// row is a row of a set: what it shows, a cell a leg, and what ends it. It gives
// the cells of the legs.
func (s wearSheet) row(l look, names []cell, block []int, of func(j int) cell, end ...cell) (from, to expr.Ref) {
	d, last := s.draft(l), 2+s.abreast // the last block may have fewer legs
	copy(d.cells, names)
	for i, j := range block {
		d.put(3+i, of(j))
	}
	copy(d.cells[last:], end)
	d.add()
	return d.at(3), d.at(2 + len(block))
}

// nominal is the row of the share of life left at a set's worst point.
func (s wearSheet) nominal(t plan.Set, block []int, end cell) {
	from, to := s.row(look{}, []cell{text(look{weight: strong}, t.Name), text(look{}, "nominal")}, block, func(j int) cell {
		least := []expr.X{expr.Num(1)}
		for _, p := range t.Points {
			if st, ok := s.all.find(p).step(s.v, j); ok {
				least = append(least, st.share)
			}
		}
		return live(look{weight: strong, across: "center"}, asShare, expr.F("MAX(0,a)", expr.Each("MIN", least)))
	}, end)
	if heats(t) {
		s.heated(from, to)
	}
	s.mark(from, to, expr.F("a<=0", from.Free()), out)
}
