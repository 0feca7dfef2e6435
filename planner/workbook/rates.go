package workbook

import (
	"fmt"
	"math"
	"slices"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
)

// What rates are given by: so many units of distance, so many laps or, for
// the oil, so many minutes of running.
const (
	perDistance = 1000
	perLaps     = 100
)

// rateColumns is how many legs a block of the Rates sheet has side by side.
const rateColumns = 8

// rates shows what the wear model says every leg takes from every point, how
// sure it is, and what that makes with the usage on the Legs sheet.
func (b *book) rates() *sheet {
	n := min(rateColumns, len(b.driven))
	s := &sheet{name: "Rates", wide: true, side: 2, widths: []float64{17, 15, 9}}
	for range n {
		s.widths = append(s.widths, min(max(11, 98/float64(n)), 26))
	}
	s.widths = append(s.widths, 27)
	s.title("Rates", fmt.Sprintf("What the wear model of tripwear gives for this car, its set-up and these circuits: wear for every %d %s of road, every %d hot laps (out and in laps counted in) and, for the oil, every %d minutes of sessions.",
		perDistance, b.u.distance.name, perLaps, perLaps))
	b.warn(s)
	b.spreads(s)
	b.block(s, "Rates: nominal wear", "", n, func(w *wearing, k int) cell {
		j := b.driven[k]
		per, use := b.basis(w, j)
		rate := over(w.u.factor()*w.p.Loss[j]*per, use.v)
		w.rate[k] = s.at(b.column(k), s.next(), rate)
		return number(look{across: "center"}, choose(w.p.Measure == planner.OilLife, asWhole, "0.0000"), rate)
	}, nil)
	b.block(s, "Spread of each, one standard deviation of the logarithm", "the rate's own, the driver's pace and, on circuits known by summary, the summary's, in quadrature", n, func(w *wearing, k int) cell {
		j := b.driven[k]
		spread := b.spread(w, j)
		w.spread[k] = s.at(b.column(k), s.next(), spread)
		return number(look{across: "center"}, asHundred, spread)
	}, nil)
	b.block(s, "Wear by leg: rate x usage", "", n, func(w *wearing, k int) cell {
		per, use := b.basis(w, b.driven[k])
		v := w.rate[k].v * use.v / per
		w.wear[k] = s.at(b.column(k), s.next(), v)
		return live(look{across: "center"}, choose(w.p.Measure == planner.OilLife, asWhole, "0.000"), fmt.Sprintf("%s*%s/%s", w.rate[k].in(s), use.in(s), literal(per)), v)
	}, func(w *wearing) cell { return b.most(s, w) })
	b.block(s, "Share of the trip's wear by leg", "", n, func(w *wearing, k int) cell {
		all, sum := 0.0, ""
		for i, r := range w.wear {
			all += r.v
			if i == 0 || b.column(i) == b.column(0) { // a new block of legs
				last := min(i+rateColumns, len(w.wear)) - 1
				if sum != "" {
					sum += "+"
				}
				sum += fmt.Sprintf("SUM(%s)", r.upTo(w.wear[last], s))
			}
		}
		return live(look{across: "center"}, asShare, fmt.Sprintf("IF(%[1]s>0,%[2]s/(%[1]s),0)", sum, w.wear[k].in(s)), over(w.wear[k].v, all))
	}, nil)
	s.span(look{weight: quiet}, "Rates hold at the pace, the weather and the length of sessions as planned. Another pace or set-up needs another run of tripwear.")
	return s
}

// column is where the kth driven leg stands in its block.
func (b *book) column(k int) int { return 4 + k%rateColumns }

// basis is what a leg's rate goes by: the usage, and how much of it.
func (b *book) basis(w *wearing, j int) (per float64, use ref) {
	switch {
	case b.p.Legs[j].Kind == profiles.RoadLeg:
		return perDistance, b.use[j].distance
	case w.p.Measure == planner.OilLife:
		return perLaps, b.use[j].minutes
	default:
		return perLaps, b.use[j].laps
	}
}

// spread is how sure a leg's wear is: the rate's own spread, the pace's
// effect taken between one spread of pace below and above, and what a summary
// adds.
func (b *book) spread(w *wearing, j int) float64 {
	if b.p.Legs[j].Kind == profiles.RoadLeg {
		return w.set.RoadSpread
	}
	brief := 0.0
	if b.p.Legs[j].BySummary {
		brief = w.set.SummarySpread
	}
	slope, bend := w.pace(j)
	return math.Sqrt(float64(w.set.CircuitSpread*w.set.CircuitSpread) + float64(slope*slope) + float64(2*bend*bend) + float64(brief*brief))
}

// pace is how the logarithm of a leg's wear goes with the pace, in spreads of
// pace: a quadratic through the wear at the three paces, as the draws take it.
func (w *wearing) pace(j int) (slope, bend float64) {
	if j >= len(w.p.Slow) || j >= len(w.p.Fast) || w.p.Slow[j] <= 0 || w.p.Fast[j] <= 0 || w.p.Loss[j] <= 0 {
		return 0, 0
	}
	slow, fast := math.Log(w.p.Slow[j]/w.p.Loss[j]), math.Log(w.p.Fast[j]/w.p.Loss[j])
	return (fast - slow) / 2, (fast + slow) / 2
}

// lift is the factor by which the bend raises a leg's wear: a pace off the
// plan wears more on the fast side than it spares on the slow one.
func (w *wearing) lift(j int) float64 {
	_, bend := w.pace(j)
	return math.Exp(bend)
}

// spreads lists what each kind of part brings, with its source.
func (b *book) spreads(s *sheet) {
	s.section("Spreads of the rates, one standard deviation of the logarithm")
	room := len(s.widths) - 3
	cells := []cell{left("Set"), left("Points"), right("Road")}
	heads := append(cells, right("Circuit"))
	if room < 3 {
		s.add(heads...)
	} else {
		s.add(append(append(heads, right("By summary")), joined(left("Source"), room-2)...)...)
	}
	for i := range b.p.Sets {
		t := &b.p.Sets[i]
		if !slices.ContainsFunc(b.wear, func(w *wearing) bool { return w.set == t && w.banded() }) {
			continue
		}
		n := s.next()
		row := []cell{text(look{}, t.Name), text(look{}, "all"), number(look{}, asHundred, t.RoadSpread), number(look{}, asHundred, t.CircuitSpread)}
		if room >= 3 {
			row = append(append(row, number(look{}, asHundred, t.SummarySpread)), joined(text(look{weight: quiet}, b.spreadSource(t.Kind)), room-2)...)
		}
		s.add(row...)
		for _, w := range b.wear {
			if w.set == t {
				w.road, w.circuit = s.at(3, n, t.RoadSpread), s.at(4, n, t.CircuitSpread)
			}
		}
	}
}

// spreadSource finds what the plan says of where a spread comes from.
func (b *book) spreadSource(kind profiles.Kind) string {
	what := map[profiles.Kind]string{
		profiles.Tire: "spread.tire circuit", profiles.Pads: "spread.pad circuit",
		profiles.Rotors: "spread.rotor crack", profiles.Oil: "spread.oil",
	}[kind]
	for _, a := range b.p.Assumptions {
		if a.What == what {
			return a.Tag + ": " + a.Source
		}
	}
	return "the owner's own, model.yaml"
}

// block is a table of all wearing points by leg.
func (b *book) block(s *sheet, heading, note string, n int, of func(w *wearing, k int) cell, end func(w *wearing) cell) {
	for from := 0; from < len(b.driven); from += rateColumns {
		until := min(from+rateColumns, len(b.driven))
		s.keepRows(len(b.wear) + 6)
		s.section(heading)
		if note != "" {
			s.span(look{weight: quiet}, sentence(note))
		}
		names := []cell{left("Set"), left("Point"), left("Unit")}
		for k := from; k < until; k++ {
			names = append(names, center(b.legName(b.driven[k])))
		}
		for len(names) < 3+n {
			names = append(names, left(""))
		}
		last := ""
		if end != nil {
			last = "Leg that takes most"
		}
		s.add(append(names, left(last))...)
		shown := ""
		for _, w := range b.wear {
			name := choose(w.set.Name == shown, "", w.set.Name)
			shown = w.set.Name
			unit := w.u.name
			if w.u.format == asShare {
				unit = "life"
			}
			cells := []cell{text(look{weight: strong}, name), text(look{}, w.spot()), text(look{weight: quiet}, unit)}
			for k := from; k < until; k++ {
				cells = append(cells, of(w, k))
			}
			cells = pad(cells, 3+n)
			if end != nil {
				cells = append(cells, end(w))
			}
			n := s.add(cells...)
			if end != nil && heats(w.p.Measure) {
				s.heated(s.at(4, n, 0), s.at(3+until-from, n, 0))
			}
		}
	}
}

// most names the leg that takes most from a point.
func (b *book) most(s *sheet, w *wearing) cell {
	best := -1
	for k, r := range w.wear {
		if r.v > 0 && (best < 0 || r.v > w.wear[best].v) {
			best = k
		}
	}
	wear, names := w.workings(workWear, 1, len(b.driven), s), w.workings(workLeg, 1, len(b.driven), s)
	name := "none"
	if best >= 0 {
		name = b.legName(b.driven[best])
	}
	return told(look{}, fmt.Sprintf(`IF(MAX(%[1]s)>0,INDEX(%[2]s,MATCH(MAX(%[1]s),%[1]s,0)),"none")`, wear, names), name)
}
