package workbook

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/workbook/expr"
	"example.com/tripwear/planner/workbook/varied"
	"example.com/tripwear/profiles"
)

// usage is what a leg's rates are multiplied by, live.
type usage struct {
	distance        expr.Ref   // driven, in the workbook's unit
	laps            expr.Ref   // hot
	minutes         expr.Ref   // of circuit sessions
	paced           plan.Steps // runs of the model at other paces; none where there are none
	pace            varied.Place
	toRight, toLeft expr.Ref // how far the left share has gone to none, or to all
}

// legs is the sheet of the trip's legs and what others take from it.
type legs struct {
	sheet                 *sheet
	use                   []usage
	set                   map[string]setting
	through               expr.Run // the distance of every leg
	distance, fuel, tanks expr.Ref // in all
}

// Columns of the Legs sheet that others point to.
const (
	legName = 3 + iota
	legDistance
	legDays
	legSessions
	legMinutes
	legLaps
	legLapTime
	legPace
	legShare
	legBrakings
	legHeat
	legRain
	legFuel
	legTanks
	legEnds
	legPeaks
	legMark = 21

	legFirst = 5
)

var legWidths = []float64{3.5, 7, 12.9, 8.6, 4.9, 5.5, 5.5, 4.9, 6.5, 6.5, 6, 6, 6, 5.5, 5.5, 6, 12.6, 5.9, 5.9, 5.9, 7.6}

// legsOf lists the trip as it will be driven, a row a leg, with the inputs that
// say how far and how long.
func legsOf(v view, table *varied.Table) *legs {
	s := &sheet{name: legsName, wide: true, side: 3, widths: legWidths}
	out := &legs{sheet: s}
	s.title("Legs", "Write another distance, or other days, sessions, minutes, pace and left share, into the marked cells, and every sheet follows. A circuit known by its summary alone has wider figures; (s) marks it.")
	warn(s)
	u := v.u
	s.heads(left("No."), left("Kind"), left("Name"), center(u.distance.head("Distance")), center("Days"), center("Sess."), center("Min."),
		center("Hot laps"), center("Lap time, m:s"), center("Pace, %"), center("Left share, %"), center("Brak-ings"),
		center(u.heat.head("Air")), center("Rain, %"), center(u.fuel.head("Fuel")), center("Tanks"), center("Ends, as planned"),
		center(u.heat.head("Front rotor bulk")), center(u.heat.head("Rear rotor bulk")), center(u.heat.head("Fluid peak")), center("Changed"))
	var fuel, tanks, changed, longer expr.Run
	for j := range v.Legs {
		r := v.leg(s, table, j)
		out.use = append(out.use, r.use)
		out.through, fuel, tanks = append(out.through, r.distance), append(fuel, r.fuel), append(tanks, r.tanks)
		changed, longer = append(changed, r.changed), append(longer, r.longer)
	}
	total := look{total: true}
	d := s.draft(total)
	adds := func(col int, format string, of expr.Run) expr.Ref {
		return d.put(col, live(total, format, expr.F("SUM(a)", of)))
	}
	d.put(legName, text(total, "Total"))
	out.distance, out.fuel, out.tanks = adds(legDistance, u.distance.format, out.through), adds(legFuel, u.fuel.format, fuel), adds(legTanks, asTenth, tanks)
	d.add()
	any := expr.F("SUM(a)", changed)
	if set := v.setUp(out); set != nil {
		any = expr.F("a+SUM(b)", any, set)
	}
	s.hide(1, flag(any), flag(expr.F("SUM(a)", longer)))
	s.span(look{weight: quiet}, "Hot laps: what fits into a session beside an out and an in lap, which take as long as 2.6 hot laps (engineering choice). A day driven twice is 2, a day lost to rain 0. "+
		"Wear goes by the lap: as the program has it for other distances and days, within 1 % for other numbers of sessions; minutes change the laps, tread and hubs follow within 5 %, pads and rotors are struck out. "+
		"Another pace follows within 1 %, oil on the safe side, another left share exactly; camber and toe, of each wheel of an axle, within 3 % of a zone. Blank is as planned. "+
		"Left share: of the cornering load, in left turns, which wear the right-hand side. Rotor bulk, as planned: mean over the hottest session; fluid peak: its hottest moment.")
	v.faces(s)
	s.printed = len(s.rows)
	v.rain(s)
	v.circuits(s)
	return out
}

// faces tells how hot the rotors' faces get on circuits.
func (v view) faces(s *sheet) {
	var out []string
	for _, l := range v.Legs {
		if l.Kind == profiles.CircuitLeg {
			out = append(out, fmt.Sprintf("%s %.0f %s in front, %.0f behind", l.Name, v.u.heat.of(l.RotorFace[0]), v.u.heat.name, v.u.heat.of(l.RotorFace[1])))
		}
	}
	if len(out) > 0 {
		s.span(look{weight: quiet}, "The rotors' faces flash, at a braking, to: "+strings.Join(out, "; ")+".")
	}
}

// Hidden cells of a leg's row beside whether it changed; its inputs as planned and
// what follows from them come after.
const (
	legLonger = 1 + iota // whether sessions are of another length
	legBurn              // fuel a lap or a distance, as planned
	legTank              // a tank
	legRound             // distance of a lap
	legAllMinutes
	legPlanned // the first input
)

// legRow is what the row of a leg gives to others.
type legRow struct {
	use                   usage
	distance, fuel, tanks expr.Ref
	changed, longer       expr.Ref
}

// leg is one row; what a kind of leg does not have stays empty.
func (v view) leg(s *sheet, table *varied.Table, j int) legRow {
	l, u, box := v.Legs[j], v.u, look{box: true}
	name := l.Name
	if len(l.Can) > 0 {
		name += " (" + strings.Join(l.Can, ", ") + ")"
	}
	if l.BySummary {
		name += " (s)"
	}
	kind := string(l.Kind)
	if l.Kind == profiles.RoadLeg && l.Surface != "" {
		kind += ", " + l.Surface
	}
	ends := number(box, asTenth, l.EndDay)
	if !v.Depart.IsZero() {
		ends = day(box, v.ends(j))
	} else {
		ends.look.format = `"day "0.0`
	}
	d := s.draft(box)
	d.put(1, number(look{box: true, across: "left"}, "0", float64(j+1)))
	d.put(2, text(box, kind))
	d.put(legName, text(look{weight: strong, box: true}, name))
	d.put(legEnds, asPlanned(ends))
	none := func(col int) expr.Ref { return d.put(col, blank(box)) }
	r := legRow{distance: none(legDistance), fuel: none(legFuel), tanks: none(legTanks), changed: d.beside(0, empty), longer: d.beside(legLonger, empty)}
	if l.Kind == profiles.StopLeg {
		d.add()
		return r
	}
	d.put(legHeat, u.heat.in(box, l.Ambient))
	d.put(legRain, number(box, asShare, l.Rain))
	if l.Kind == profiles.RoadLeg {
		r.road(v, d, l)
	} else {
		r.circuit(v, d, table, j)
	}
	// at the same ratio to the tank as the plan's; no tank, no tanks
	r.tanks = d.put(legTanks, live(box, asTenth, expr.F("IF(a>0,b/a,0)", d.beside(legTank, d.hidden[legTank].exact), r.fuel)))
	d.put(legMark, changedMark(r.changed))
	d.add()
	return r
}

// road fills in how far a road goes.
func (r *legRow) road(v view, d *draft, l plan.Leg) {
	u := v.u
	r.distance = d.put(legDistance, number(look{input: true}, u.distance.format, expr.Tidy(u.distance.of(l.Meters))))
	r.use.distance = r.distance
	d.s.restrict(r.distance, rule{most: 99_999})
	r.changed = d.hide(flag(unlike(r.distance, d.beside(legPlanned, r.distance.V))))
	d.hide(blank(look{}))
	burn := d.hide(number(look{}, "0.0000", over(u.fuel.of(l.FuelUsed), r.distance.Num())))
	d.hide(v.tank(l))
	d.hide(blank(look{}))
	d.hide(blank(look{}))
	d.hide(number(look{}, asTenth, r.distance.Num()))
	r.fuel = d.put(legFuel, live(look{box: true}, u.fuel.format, expr.F("a*b", r.distance, burn)))
}

// tank is what one holds, by what the leg takes.
func (v view) tank(l plan.Leg) cell {
	return number(look{}, asTenth, over(v.u.fuel.of(l.FuelUsed), l.Tanks))
}

// circuit fills in what a day at a circuit has.
func (r *legRow) circuit(v view, d *draft, table *varied.Table, j int) {
	l, u, s, box := v.Legs[j], v.u, d.s, look{box: true}
	input := func(col int, value, most float64, whole bool) expr.Ref {
		at := d.put(col, number(look{input: true}, "0", value))
		s.restrict(at, rule{most: most, whole: whole})
		return at
	}
	days, sessions := input(legDays, 1, 30, true), input(legSessions, float64(l.Sessions), 50, true)
	minutes := input(legMinutes, expr.Tidy(l.SessionTime/60), 600, false)
	planned := []expr.Ref{days, sessions, minutes}
	dial := v.paceOn(j)
	pace := d.put(legPace, number(look{box: true, input: dial.Turns()}, asShare, expr.Tidy(l.Pace)))
	share := d.put(legShare, number(look{box: true, input: dial.Turns()}, asShare, expr.Tidy(l.LeftShare)))
	optional := []expr.Ref{pace, share} // blank is as planned
	var pairs []expr.X
	now := func(i int) expr.Ref { return d.beside(legPlanned+len(planned)+len(optional)+i, optional[i].V) }
	for i, at := range optional {
		pairs = append(pairs, now(i), d.beside(legPlanned+len(planned)+i, at.V))
	}
	for i, at := range planned {
		pairs = append(pairs, at, d.beside(legPlanned+i, at.V))
	}
	r.changed = d.hide(flag(unlike(pairs...)))
	r.longer = d.hide(flag(unlike(minutes, d.beside(legPlanned+2, minutes.V))))
	burn := d.hide(number(look{}, "0.0000", over(u.fuel.of(l.FuelUsed), l.Laps)))
	d.hide(v.tank(l))
	round := d.hide(number(look{}, "0.000", over(expr.Tidy(u.distance.of(l.Meters)), l.Laps+2*float64(l.Sessions))))
	r.use.minutes = d.hide(flag(expr.F("a*b*c", days, sessions, minutes)))
	for _, at := range slices.Concat(planned, optional) {
		d.hide(number(look{}, "0.00", at.Num()))
	}
	for i, at := range optional {
		d.hide(live(look{}, asShare, expr.F("IF(ISNUMBER(a),a,b)", at, d.beside(legPlanned+len(planned)+i, at.V))))
	}
	lapTime, fuel := expr.X(expr.Num(l.LapTime/86400)), expr.X(burn)
	if dial.Turns() {
		least, most := dial.Range()
		s.restrict(pace, rule{least: expr.Tidy(least), most: expr.Tidy(most), optional: true})
		r.use.paced, r.use.pace = v.paced(dial), place(d, dial, now(0))
		by := func(planned expr.X, of func(l *plan.Leg) float64) expr.X {
			row := table.Row(across(r.use.paced, func(run *plan.Variant) float64 { return of(&run.Legs[j]) }))
			return expr.F("a*b", planned, r.use.pace.Factor(row))
		}
		lapTime = by(lapTime, func(l *plan.Leg) float64 { return l.LapTime })
		fuel = by(fuel, func(l *plan.Leg) float64 { return over(l.FuelUsed, l.Laps) })
		s.restrict(share, rule{most: 1, optional: true})
		was := share.Num()
		r.use.toRight = d.hide(live(look{}, asShare, expr.F("MAX(0,1-a/b)", now(1), expr.Num(math.Max(was, leastFactor)))))
		r.use.toLeft = d.hide(live(look{}, asShare, expr.F("MAX(0,(a-b)/c)", now(1), expr.Num(was), expr.Num(math.Max(1-was, leastFactor)))))
	}
	lap := d.put(legLapTime, live(box, asLap, lapTime))
	laps := d.put(legLaps, live(box, "0", expr.F("a*b*MAX(0,c*60/(d*86400)-2.6)", days, sessions, minutes, lap)))
	r.distance = d.put(legDistance, live(box, u.distance.format, expr.F("(a+2*b*c)*d", laps, days, sessions, round)))
	r.fuel = d.put(legFuel, live(box, u.fuel.format, expr.F("a*b", laps, fuel)))
	r.use.distance, r.use.laps = r.distance, laps
	if l.HeavyBrakings > 0 {
		d.put(legBrakings, number(box, "0", float64(l.HeavyBrakings)))
	}
	for i, peak := range []float64{l.RotorBulk[0], l.RotorBulk[1], l.FluidPeak} {
		d.put(legPeaks+i, asPlanned(u.heat.in(box, peak)))
	}
}
