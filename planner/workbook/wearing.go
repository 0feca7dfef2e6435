package workbook

import (
	"math"
	"slices"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/workbook/expr"
	"example.com/tripwear/profiles"

	"example.com/tripwear/planner/workbook/form"
)

// point is a point whose wear the workbook works out live, with its inputs on
// the Wear sheet.
type point struct {
	part
	measure
	set  *plan.Set
	p    *plan.Point
	u    unit
	row  int    // on the Wear sheet
	from int    // on the Workings sheet: the start; a row a driven leg follows
	nth  [2]int // set and point of the plan

	start, margin, limit expr.Ref // inputs
	fresh                expr.Ref // level of a new part
	gauge, reading       expr.Ref // sd of the start as read, and of a new reading
	priorRoad, priorCirc expr.Ref // unmeasured wear before the trip
}

// pointsOf are the points that wear, in the order of the sets.
func pointsOf(v view) []*point {
	var out []*point
	group, row := "", wearHeads
	for i := range v.Sets {
		t := &v.Sets[i]
		kind := kindOf(t.Kind)
		if kind.left == marginLeft {
			continue
		}
		for k := range t.Points {
			p := &t.Points[k]
			m := measureOf(p.Measure)
			if row++; kind.Sheet != group { // its heading comes first
				group, row = kind.Sheet, row+1
			}
			w := &point{
				part: kind, measure: m, set: t, p: p, u: m.unit(v.u), nth: [2]int{i, k},
				row: row, from: workFirst + len(out)*(len(v.driven)+2),
			}
			w.place(len(wearWidths(v)) + 2)
			out = append(out, w)
		}
	}
	return out
}

// place gives a point its cells on the Wear sheet, whose hidden ones begin at a
// column.
func (w *point) place(hidden int) {
	at := func(col int, si float64) expr.Ref {
		si *= w.u.factor()
		return expr.At(wearName, col, w.row, choose(finite(si), expr.Tidy(si), 0))
	}
	p := w.p
	w.start, w.margin, w.limit = at(wearNow, p.Start), at(wearMargin, p.Margin), at(wearLimit, p.Limit)
	w.fresh, w.gauge, w.reading = at(hidden+partNew, p.New), at(hidden+partGauge, p.Gauge), at(hidden+partReading, p.Reading)
	w.priorRoad, w.priorCirc = at(hidden+priorRoad, p.Prior[0]), at(hidden+priorCircuit, p.Prior[1])
}

// banded says whether the sheet works out a band: where wear adds up at rates
// that have a spread. A hub ends by a drawn failure, so it has none.
func (w *point) banded() bool { return w.left == shareLeft }

// spot names the point within its set.
func (w *point) spot() string { return spotOf(*w.p) }

// plan is an input as planned: hidden beside its row.
func (w *point) planned(hidden int, input expr.Ref) expr.Ref {
	return expr.At(wearName, wearWidth+2+hidden, w.row, input.Num())
}

// loss is what a leg takes, in the unit.
func (w *point) loss(j int) float64 {
	if j >= len(w.p.Loss) {
		return 0
	}
	return w.u.factor() * w.p.Loss[j]
}

// ceiling is what the months allow after leg j; no limit where time does not count.
func (w *point) ceiling(j int) float64 {
	if j < len(w.p.Cap) && finite(w.p.Cap[j]) {
		return w.u.factor() * w.p.Cap[j]
	}
	return form.NoMore
}

// basis is what a leg's rate goes by: the usage, and how much of it.
func (w *point) basis(leg plan.Leg, use usage) (per float64, of expr.Ref) {
	switch {
	case leg.Kind == profiles.RoadLeg:
		return perDistance, use.distance
	case w.Minutes:
		return perLaps, use.minutes
	}
	return perLaps, use.laps
}

// spreadOn is how sure a leg's wear is: the rate's own spread, the pace's
// effect taken between one spread of pace below and above, and what a summary
// adds.
func (w *point) spreadOn(leg plan.Leg, j int) float64 {
	if leg.Kind == profiles.RoadLeg {
		return w.set.RoadSpread
	}
	brief := 0.0
	if leg.BySummary {
		brief = w.set.SummarySpread
	}
	slope, bend := w.pace(j)
	return math.Sqrt(float64(w.set.CircuitSpread*w.set.CircuitSpread) + float64(slope*slope) + float64(2*bend*bend) + float64(brief*brief))
}

// pace is how the logarithm of a leg's wear goes with the pace, in spreads of
// pace: a quadratic through the wear at the three paces, as the draws take it.
func (w *point) pace(j int) (slope, bend float64) {
	if j >= len(w.p.Slow) || j >= len(w.p.Fast) || w.p.Slow[j] <= 0 || w.p.Fast[j] <= 0 || w.p.Loss[j] <= 0 {
		return 0, 0
	}
	slow, fast := math.Log(w.p.Slow[j]/w.p.Loss[j]), math.Log(w.p.Fast[j]/w.p.Loss[j])
	return (fast - slow) / 2, (fast + slow) / 2
}

// lift is the factor by which the bend raises a leg's wear: a pace off the
// plan wears more on the fast side than it spares on the slow one.
func (w *point) lift(j int) float64 {
	_, bend := w.pace(j)
	return math.Exp(bend)
}

// wearing is a point with its rates and its way through the trip.
type wearing struct {
	*point
	rates
	steps []step // leaving, then after each driven leg
}

// step is a point's state at the start or after a driven leg.
type step struct {
	left          expr.Ref // nominal level, below none where it is worn through
	lo, hi        expr.Ref // 5 and 95 %
	pLimit, pPast expr.Ref // chances to have crossed the limit, the margin
	share         expr.Ref // of life, of the part as new
}

// last is the state at the end of the trip.
func (w *wearing) last() step { return w.steps[len(w.steps)-1] }

// renewed is the number of the driven leg before which a new part goes on as
// decided, counted from 0; -1 where none does.
func (w *wearing) renewed(v view) int {
	on := w.set.Decision.NewFrom()
	if on < 0 {
		return -1
	}
	return slices.IndexFunc(v.driven, func(j int) bool { return j >= on })
}

// crossed is the chance to have crossed the limit by the end, on the part that
// comes off or on the new one.
func (w *wearing) crossed(v view) expr.X {
	last, k := w.last().pLimit, w.renewed(v)
	if k <= 0 {
		return last
	}
	return ifDecided(expr.F("1-(1-a)*(1-b)", w.steps[k].pLimit, last), last)
}

// worn are the points that wear, in the order of the sets.
type worn []*wearing

// find is the wearing point of a set's point; nil where there is none.
func (all worn) find(p plan.Point) *wearing {
	for _, w := range all {
		if w.p.Place == p.Place && w.p.Zone == p.Zone && w.p.Measure == p.Measure {
			return w
		}
	}
	return nil
}

// step is the point's state after leg j, -1 the start; none after a leg that
// wears nothing.
func (w *wearing) step(v view, j int) (st step, ok bool) {
	k := slices.Index(v.driven, j)
	return w.steps[k+1], j < 0 || k >= 0
}
