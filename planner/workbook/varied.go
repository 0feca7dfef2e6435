package workbook

import (
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
func (w *point) factor(v view, use usage, j int, table *varied.Table) expr.X {
	if len(use.paced.Runs) == 0 {
		return expr.Num(1)
	}
	took := func(v *plan.Variant) float64 {
		took := v.Points[w.nth[0]][w.nth[1]].Loss[j]
		if w.Minutes {
			return took
		}
		return over(took, v.Legs[j].Laps)
	}
	out := use.pace.Factor(table.Row(across(use.paced, took)))
	sides := plan.Steps{Below: 1, Runs: []plan.Variant{*v.Varied.Right, use.paced.Runs[use.paced.Below], *v.Varied.Left}}
	if row := table.Row(across(sides, took)); row != nil && use.toRight.Sheet != "" {
		out = expr.F("a*(1+b*(c-1)+d*(e-1))", out, use.toRight, row[0], use.toLeft, row[2])
	}
	return out
}
