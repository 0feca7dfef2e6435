package workbook

import (
	"fmt"
	"slices"

	"example.com/tripwear/planner/workbook/expr"
	"example.com/tripwear/planner/workbook/varied"
	"example.com/tripwear/profiles"
)

// What rates are given by: so many units of distance, so many laps or, for
// the oil, so many minutes of running.
const (
	perDistance = 1000
	perLaps     = 100
)

// rateColumns is how many legs a block of the Rates sheet has side by side,
// and firstRate the column of the first.
const (
	rateColumns = 8
	firstRate   = 4
)

// rates are a point's cells on the Rates sheet, by driven leg.
type rates struct {
	road, circuit              expr.Ref // spreads of the set
	rate, factor, spread, wear expr.Run
}

// rateSheet is the sheet in the making.
type rateSheet struct {
	*sheet
	v       view
	points  []*point
	abreast int // legs side by side
}

// ratesOf shows what the wear model says every leg takes from every point, how
// sure it is, and what that makes with the usage on the Legs sheet.
func ratesOf(v view, points []*point, l *legs, table *varied.Table) (*sheet, []rates) {
	n := min(rateColumns, len(v.driven))
	s := rateSheet{&sheet{name: "Rates", wide: true, hidden: true, side: 2, widths: []float64{17, 15, 9}}, v, points, n}
	for range n {
		s.widths = append(s.widths, min(max(11, 98/float64(n)), 26))
	}
	s.widths = append(s.widths, 27)
	s.title("Rates", fmt.Sprintf("What the wear model of tripwear gives for this car, its set-up and these circuits: wear for every %d %s of road, every %d hot laps (out and in laps counted in) and, for the oil, every %d minutes of sessions.",
		perDistance, v.u.distance.name, perLaps, perLaps))
	warn(s.sheet)
	out := make([]rates, len(points))
	s.spreads(out)
	middle := look{across: "center"}
	s.block("Rates: nominal wear", "", func(i, k int) cell {
		w, j := points[i], v.driven[k]
		per, of := w.basis(v.Legs[j], l.use[j])
		return number(middle, choose(w.u.format == asWhole, asWhole, "0.0000"), over(w.loss(j)*per, of.Num()))
	}, func(i int) *expr.Run { return &out[i].rate }, nil)
	s.block("Factor: what another pace, left share, camber and toe make of it", "", func(i, k int) cell {
		return live(middle, "0.000", points[i].factor(v, l, v.driven[k], table))
	}, func(i int) *expr.Run { return &out[i].factor }, nil)
	s.block("Spread of each, one standard deviation of the logarithm", "the rate's own, the driver's pace and, on circuits known by summary, the summary's, in quadrature", func(i, k int) cell {
		return number(middle, asHundred, points[i].spreadOn(v.Legs[v.driven[k]], v.driven[k]))
	}, func(i int) *expr.Run { return &out[i].spread }, nil)
	s.block("Wear by leg: rate x factor x usage", "", func(i, k int) cell {
		w, j := points[i], v.driven[k]
		per, of := w.basis(v.Legs[j], l.use[j])
		return live(middle, choose(w.u.format == asWhole, asWhole, "0.000"), expr.F("a*b*c/d", out[i].rate[k], out[i].factor[k], of, expr.Num(per)))
	}, func(i int) *expr.Run { return &out[i].wear }, func(i int) cell { return most(v, points[i], out[i]) })
	s.block("Share of the trip's wear by leg", "", func(i, k int) cell {
		var all expr.X
		for legs := range slices.Chunk(out[i].wear, rateColumns) {
			if all == nil {
				all = expr.F("SUM(a)", legs)
			} else {
				all = expr.F("a+SUM(b)", all, legs)
			}
		}
		return live(middle, asShare, expr.F("IF(a>0,b/(a),0)", all, out[i].wear[k]))
	}, nil, nil)
	s.span(look{weight: quiet}, "Rates hold in the weather and at the length of sessions as planned, factors between the runs they come from. What has no cell to write in needs another run of tripwear.")
	return s.sheet, out
}

// spreads lists what each kind of part brings, with its source.
func (s rateSheet) spreads(out []rates) {
	s.section("Spreads of the rates, one standard deviation of the logarithm")
	room := len(s.widths) - 3
	heads := []cell{left("Set"), left("Points"), right("Road"), right("Circuit")}
	if room >= 3 {
		heads = append(append(heads, right("By summary")), joined(left("Source"), room-2)...)
	}
	s.add(heads...)
	for i := range s.v.Sets {
		t := &s.v.Sets[i]
		if !slices.ContainsFunc(s.points, func(w *point) bool { return w.set == t && w.banded() }) {
			continue
		}
		row := []cell{text(look{}, t.Name), text(look{}, "all"), number(look{}, asHundred, t.RoadSpread), number(look{}, asHundred, t.CircuitSpread)}
		if room >= 3 {
			row = append(append(row, number(look{}, asHundred, t.SummarySpread)), joined(text(look{weight: quiet}, s.source(t.Kind)), room-2)...)
		}
		n := s.add(row...)
		for k, w := range s.points {
			if w.set == t {
				out[k].road, out[k].circuit = s.at(3, n, t.RoadSpread), s.at(4, n, t.CircuitSpread)
			}
		}
	}
}

// source finds what the plan says of where a spread comes from.
func (s rateSheet) source(kind profiles.Kind) string {
	for _, a := range s.v.Assumptions {
		if a.What == kindOf(kind).Spread {
			return a.Tag + ": " + a.Source
		}
	}
	return "the owner's own, model.yaml"
}

// block is a table of all wearing points by leg. The cells of each leg go to
// where to says, and end gives the last column.
func (s rateSheet) block(heading, note string, of func(i, k int) cell, to func(i int) *expr.Run, end func(i int) cell) {
	k := 0
	for legs := range slices.Chunk(s.v.driven, rateColumns) {
		s.keepRows(len(s.points) + 6)
		s.section(heading)
		if note != "" {
			s.span(look{weight: quiet}, sentence(note))
		}
		heads := s.draft(look{})
		for i := range heads.cells {
			heads.put(i+1, left(append([]string{"Set", "Point", "Unit"}, make([]string, len(heads.cells))...)[i]))
		}
		for i, j := range legs {
			heads.put(firstRate+i, center(s.v.legName(j)))
		}
		last := firstRate + s.abreast
		heads.put(last, left(choose(end != nil, "Leg that takes most", "")))
		heads.add()
		shown := ""
		for i, w := range s.points {
			d := s.draft(look{})
			d.put(1, text(look{weight: strong}, choose(w.set.Name == shown, "", w.set.Name)))
			shown = w.set.Name
			d.put(2, text(look{}, w.spot()))
			d.put(3, text(look{weight: quiet}, w.u.called()))
			for n := range legs {
				at := d.put(firstRate+n, of(i, k+n))
				if to != nil {
					*to(i) = append(*to(i), at)
				}
			}
			if end == nil {
				d.cells = d.cells[:last-1]
			} else {
				d.put(last, end(i))
			}
			d.add()
			if end != nil && w.Heats {
				s.heated(s.sheet.at(firstRate, d.row, 0), s.sheet.at(firstRate-1+len(legs), d.row, 0))
			}
		}
		k += len(legs)
	}
}

// most names the leg that takes most from a point.
func most(v view, w *point, r rates) cell {
	names := make(expr.Run, len(v.driven))
	for k, j := range v.driven {
		names[k] = expr.Ref{Sheet: workingsName, Col: workLeg, Row: w.from + 1 + k, V: expr.Text(v.legName(j)).Value()}
	}
	return live(look{}, "", expr.F(`IF(MAX(a)>0,INDEX(b,MATCH(MAX(a),a,0)),"none")`, w.takes(r), names))
}

// takes is what each leg takes, on the Workings sheet.
func (w *point) takes(r rates) expr.Run {
	out := make(expr.Run, len(r.wear))
	for k, at := range r.wear {
		out[k] = expr.At(workingsName, workWear, w.from+1+k, at.Num())
	}
	return out
}
