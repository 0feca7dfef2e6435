package workbook

import (
	"cmp"
	"math"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/workbook/expr"
	"example.com/tripwear/planner/workbook/varied"
)

const factorsName = "Factors"

// factors are the rows of the Factors sheet in the making.
func newFactors() *varied.Table { return &varied.Table{Sheet: factorsName, First: 5} }

// factorsOf shows what the trip takes with one thing changed, of what it takes as
// planned.
func factorsOf(t *varied.Table) *sheet {
	s := &sheet{name: factorsName, wide: true, hidden: true, widths: []float64{9}}
	most := 0
	for _, r := range t.Rows {
		most = max(most, len(r))
	}
	for range most {
		s.widths = append(s.widths, 13)
	}
	s.title("Factors", "What a leg takes with one thing changed, of what it takes as planned: runs of tripwear's model at even steps from the lowest value of an input to the highest. Rates says which row is whose.")
	warn(s)
	s.add(left("Row"))
	for i, r := range t.Rows {
		cells := []cell{number(look{}, "0", float64(i+1))}
		for _, f := range r {
			cells = append(cells, number(look{}, "0.0000", f))
		}
		s.addHigh(lineHeight, cells...)
	}
	return s
}

// least is what a factor may be: a leg that takes nothing takes this of its wear, so
// that there is something between it and the next.
const leastFactor = 1e-9

// across are the factors of a figure over runs, of the plan's.
func across(s plan.Steps, of func(v *plan.Variant) float64) []float64 {
	var out []float64
	planned := of(&s.Runs[s.Below])
	for i := range s.Runs {
		f := 1.0
		if got := of(&s.Runs[i]); planned > 0 && finite(got) {
			f = math.Max(leastFactor, got/planned)
		}
		out = append(out, f)
	}
	return out
}

// paceOn is the dial of a circuit leg's pace.
func (v view) paceOn(j int) varied.Dial {
	s, d := v.Varied.Pace, varied.Dial{Planned: expr.Tidy(v.Legs[j].Pace), Apart: v.Varied.Pace.Apart}
	held := func(i int) bool { // at the end of what can be driven
		return math.Abs(s.Runs[i].Legs[j].Pace-d.Planned-float64(float64(i-s.Below)*d.Apart)) > 1e-6
	}
	for i := s.Below - 1; i >= 0 && !held(i); i-- {
		d.Below++
	}
	for i := s.Below + 1; i < len(s.Runs) && !held(i); i++ {
		d.Above++
	}
	return d
}

// paced are the runs of a leg's dial.
func (v view) paced(d varied.Dial) plan.Steps {
	s := v.Varied.Pace
	return plan.Steps{Apart: s.Apart, Below: d.Below, Runs: s.Runs[s.Below-d.Below : s.Below+d.Above+1]}
}

// place writes where an input stands among its runs into hidden cells.
func place(d *draft, of varied.Dial, input expr.Ref) varied.Place {
	steps := of.Steps(input)
	run := d.hide(live(look{}, "0", of.Run(steps)))
	return varied.Place{Run: run, On: d.hide(live(look{}, "0.0000", expr.F("a+1-b", steps, run)))}
}

// factor is what inputs beside the usage make of a leg's rate.
func (w *point) factor(v view, l *legs, j int, table *varied.Table) expr.X {
	took := func(v *plan.Variant) float64 { return v.Points[w.nth[0]][w.nth[1]].Loss[j] }
	of := func(s plan.Steps, at varied.Place) expr.X {
		if len(s.Runs) == 0 || at.Run == nil {
			return nil
		}
		row := table.Row(across(s, took))
		if row == nil {
			return nil
		}
		return at.Factor(row)
	}
	set := l.set[w.p.Place]
	both := func(formula string, a, b expr.X) expr.X { // or the one that is not 1 whatever is written
		if a == nil || b == nil {
			return choose(a == nil, b, a)
		}
		return expr.F(formula, a, b)
	}
	out := both("a+b-1", of(v.Varied.Camber, set.camber), of(v.Varied.Toe, set.toe))
	use := l.use[j]
	if len(use.paced.Runs) == 0 {
		return orOne(out)
	}
	lost := took
	took = func(v *plan.Variant) float64 {
		if w.Minutes {
			return lost(v)
		}
		return over(lost(v), v.Legs[j].Laps)
	}
	out = both("a*b", out, of(use.paced, use.pace))
	sides := plan.Steps{Below: 1, Runs: []plan.Variant{*v.Varied.Right, use.paced.Runs[use.paced.Below], *v.Varied.Left}}
	if row := table.Row(across(sides, took)); row != nil {
		out = both("a*b", out, expr.F("(1+a*(b-1)+c*(d-1))", use.toRight, row[0], use.toLeft, row[2]))
	}
	return orOne(out)
}

// orOne is a factor, or 1 where there is none.
func orOne(x expr.X) expr.X {
	if x == nil {
		return expr.Num(1)
	}
	return x
}

// setting is where a wheel's camber and toe stand among their runs.
type setting struct{ camber, toe varied.Place }

// setUp lists the axles with the camber and the toe of their wheels, to write in;
// it gives the flags of their rows.
func (v view) setUp(l *legs) (changed expr.Run) {
	if len(v.Varied.Camber.Runs) == 0 {
		return nil
	}
	const degree = math.Pi / 180
	s := l.sheet
	l.set = map[string]setting{}
	s.section("Set-up, of each wheel")
	d := s.draft(look{weight: header})
	d.put(legName, left("Axle"))
	d.put(legDistance, center("Camber, deg"))
	d.put(legMinutes, center("Toe, deg"))
	d.add()
	for i, axle := range []string{"Front", "Rear"} {
		d := s.draft(look{box: true})
		d.put(legName, text(look{weight: strong, box: true}, axle))
		var dials []varied.Dial
		var typed, now []expr.Ref
		var pairs []expr.X
		wheels := v.Varied.Set[2*i : 2*i+2]
		for k, steps := range []plan.Steps{v.Varied.Camber, v.Varied.Toe} {
			at := [2]float64{}
			for n, w := range wheels {
				at[n] = expr.Tidy([]float64{w.Camber, w.Toe}[k] / degree)
			}
			c := number(look{input: true}, asHundred, at[0])
			if at[0] != at[1] {
				c = blank(look{input: true, format: asHundred})
			}
			in := d.put([]int{legDistance, legMinutes}[k], c)
			typed = append(typed, in, in)
			least, most := math.Inf(-1), math.Inf(1)
			for _, planned := range at {
				dial := varied.Dial{Planned: planned, Apart: expr.Tidy(steps.Apart / degree), Below: steps.Below, Above: len(steps.Runs) - 1 - steps.Below}
				low, high := dial.Range()
				dials, least, most = append(dials, dial), math.Max(least, low), math.Min(most, high)
				was, at := d.beside(len(dials), expr.Num(planned).Value()), d.beside(2*len(wheels)+len(dials), expr.Num(planned).Value())
				now, pairs = append(now, at), append(pairs, at, was)
			}
			s.restrict(in, rule{least: expr.Tidy(least), most: cmp.Or(expr.Tidy(most), leastFactor), optional: true}) // a most of 0 is none
		}
		flagged := d.hide(flag(unlike(pairs...)))
		changed = append(changed, flagged)
		for _, dial := range dials {
			d.hide(number(look{}, asHundred, dial.Planned))
		}
		for n := range dials {
			d.hide(live(look{}, asHundred, expr.F("IF(ISNUMBER(a),a,b)", typed[n], pairs[2*n+1])))
		}
		var places []varied.Place
		for n, dial := range dials {
			places = append(places, place(d, dial, now[n]))
		}
		for n, w := range wheels {
			l.set[w.Place] = setting{places[n], places[2+n]}
		}
		d.put(legMark, changedMark(flagged))
		d.add()
	}
	return changed
}
