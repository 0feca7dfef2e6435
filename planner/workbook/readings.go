package workbook

import (
	"slices"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/workbook/expr"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"

	"example.com/tripwear/planner/workbook/form"
)

// formSheet is the sheet in the making.
type formSheet struct {
	*sheet
	v       view
	all     worn
	through expr.Run // the distance of every leg
}

// readings is the form to fill in, a block for each time at which the checks want
// a reading: before leaving, before and after circuit days, at a stop with work,
// back home; wheel by wheel as one walks round the car.
func readings(v view, all worn, through expr.Run) *sheet {
	s := formSheet{&sheet{name: form.Sheet, side: 2, widths: form.Widths}, v, all, through}
	s.switched(form.Sheet, "Write in the marked cells; measure cold, at the same spots; for rotors and hubs choose the word. Expected is nominal, AS DECIDED: a part that is replaced reads as new.",
		"Write in the marked cells; measure cold, at the same spots; for rotors and hubs choose the word. Expected is nominal, AS IT STANDS: nothing is replaced.")
	warn(s.sheet)
	s.heads(left("Wheel"), left("What"), right("Expect"), right("Low"), right("High"), left("Unit"), left("Measured"), left("Status"), left("Note"))
	for _, j := range append([]int{-1}, v.driven...) {
		if want := v.wanted(j); want != nil {
			s.page(j, want)
		}
	}
	return s.sheet
}

// wanted says of a point whether the checks want it read after leg j, -1 before
// leaving; nil where they want nothing then.
func (v view) wanted(j int) func(w *wearing, byGauge bool) bool {
	next := j + 1
	var checks []plan.Check
	any := j < 0 || next == len(v.Legs)
	for _, c := range v.Checks {
		if c.Set != "" && c.When != kind.Fuel && slices.Contains(c.Before, next) {
			checks = append(checks, c)
		}
		any = any || v.has(next) && c.When == "at "+v.Legs[next].Name
	}
	if len(checks) == 0 && !any {
		return nil
	}
	return func(w *wearing, byGauge bool) bool {
		if j < 0 {
			return byGauge || !slices.Contains([]kind.Measure{kind.Tread, kind.PadLining}, w.p.Measure) // which a gauge tells
		}
		first := w.set.Points[min(w.set.First, len(w.set.Points)-1)]
		return slices.ContainsFunc(append(checks, v.watchedHome(next)...), func(c plan.Check) bool {
			if c.Set != w.set.ID || (c.Looks == kind.ByGauge) != byGauge {
				return false
			}
			if byGauge {
				return c.Place == w.p.Place && c.Zone == w.p.Zone && c.Measure == w.p.Measure
			}
			return w.p.Place == first.Place
		})
	}
}

// watchedHome are the gauge's checks, each set's first, which are made once more
// back home.
func (v view) watchedHome(next int) []plan.Check {
	if next < len(v.Legs) {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(v.Checks), func(c plan.Check) bool { return c.Looks != kind.ByGauge })
}

// page is one block of the form: after leg j, or before leaving at -1.
func (s formSheet) page(j int, want func(w *wearing, byGauge bool) bool) {
	v, u := s.v, s.v.u.distance
	name := "Before leaving"
	odometer := number(look{}, u.format, u.of(v.Odometer))
	if j >= 0 {
		name = "After leg " + v.legName(j)
		if v.has(j+1) && v.Legs[j+1].Kind == profiles.StopLeg {
			name += ", at " + v.Legs[j+1].Name
		}
		odometer = live(look{}, u.format, expr.F("a+SUM(b)", expr.Num(u.of(v.Odometer)), s.through[:j+1]))
	}
	places := slices.Clone(form.Walk)
	for _, w := range s.all { // of what the tables do not know
		if w.Plain && !w.Counted && !slices.Contains(places, w.p.Place) {
			places = append(places, w.p.Place)
		}
	}
	var rows []func()
	for _, place := range places {
		wheel := place
		for _, w := range s.all {
			if w.p.Place == place && !w.Counted && w.set.IsOn(min(j+1, v.last())) {
				rows = append(rows, func() { wheel = s.point(w, wheel, j, want) })
			}
		}
	}
	s.keepRows(6)
	s.row(j, entry{Ask: form.Ask{Wheel: name, Unit: "day", Key: "date"}, date: true})
	from := s.next()
	s.row(j, entry{Ask: form.Ask{What: "odometer", Unit: u.name, Key: "odometer", Most: form.NoMore}, expected: odometer})
	for _, row := range rows {
		row()
	}
	for _, k := range kind.All {
		if k.ID == profiles.Fluid && j >= 0 {
			continue
		}
		for _, a := range form.Asks[k.ID] {
			if a.Reading == logbook.OilAdded && j < 0 {
				continue
			}
			e := entry{Ask: a}
			if a.Unit == "" {
				e.Unit = v.u.oil.name
			}
			if a.Full != "" {
				e.expected = text(look{across: "right"}, string(a.Full))
			}
			s.row(j, e)
		}
	}
	at, to := s.at(form.Status, from, 0), s.at(form.Status, s.next()-1, 0)
	s.mark(at, to, expr.F(`OR(a=b,a=c,a="STOP")`, at.Free(), expr.Text(pastLimit), expr.Text(notNumber)), out)
	s.mark(at, to, expr.F(`OR(a=b,LEFT(a,5)="LOWER")`, at.Free(), expr.Text(belowMargin)), low)
}

// entry is one row of the form.
type entry struct {
	form.Ask
	expected, low, high cell
	date                bool
	w                   *wearing // compared with its margin and limit; nil where there is none
	heats               bool
	nearly              logbook.Finding // the one that is nearly the end
}

// point asks for a point after leg j, and for what an eye finds beside it, where
// that is wanted. It gives the wheel's name for the row that follows: a wheel is
// named once.
func (s formSheet) point(w *wearing, wheel string, j int, want func(w *wearing, byGauge bool) bool) string {
	p, u := *w.p, w.u
	st, _ := w.step(s.v, j)
	e := entry{Ask: w.Asked(), nearly: w.nearly, heats: w.Heats}
	e.Wheel, e.Set, e.Key = wheel, w.set.ID, w.measure.Key(p)
	if (w.Zoned() || w.Plain) && p.Zone != "" {
		e.What += ", " + p.Zone
	}
	if e.Words() == nil {
		e.Unit, e.w, e.Most = u.name, w, 2*w.fresh.Num()+1
	}
	switch k := slices.Index(s.v.driven, j); {
	case w.banded():
		level := func(l look, level expr.Ref) cell {
			var x expr.X = expr.F("MAX(0,a)", level)
			if on := w.renewed(s.v); on > 0 && on == k+1 { // it goes on here
				x = ifDecided(w.fresh, x)
			}
			return live(l, u.format, x)
		}
		e.expected = level(look{}, st.left)
		if j >= 0 {
			e.low, e.high = level(look{weight: quiet}, st.lo), level(look{weight: quiet}, st.hi)
		}
	case j >= 0:
		e.expected = asPlanned(s.v.u.chance.in(look{}, 1-p.After[j].PLimit))
	}
	if want(w, e.Words() == nil) {
		s.row(j, e)
		wheel = ""
	}
	if p.Zone == choose(w.Zoned(), "outside", "") && want(w, false) {
		for _, a := range w.Found() {
			a.Wheel, a.Set, a.Key = wheel, w.set.ID, p.Place+"//"+a.Key
			s.row(j, entry{Ask: a})
			wheel = ""
		}
	}
	return wheel
}

// formRow is points enough to write in by hand.
const formRow = 15

// row appends an entry; its measured cell takes what may be entered.
func (s formSheet) row(j int, e entry) {
	input, plain := look{input: true, across: "center"}, func(t string) cell { return text(look{}, t) }
	switch {
	case e.date:
		input.format = asDate
	case e.fraction():
		input.format = asText // so that no program takes 5/32 for a day
	}
	d := s.draft(look{})
	got := d.put(form.Measured, blank(input))
	d.put(1, text(look{weight: strong}, e.Wheel))
	d.put(2, plain(e.What))
	d.put(form.Expected, e.expected)
	low, high := d.put(form.Low, e.low), d.put(form.High, e.high)
	d.put(form.Unit, plain(e.Unit))
	d.put(form.Status, e.verdict(got, low, high))
	d.put(form.Note, blank(look{input: true}))
	for i := range d.cells {
		d.cells[i].look.over = e.Wheel != "" && !d.cells[i].look.input // a rule where a wheel begins
	}
	if e.date { // the heading of a block
		copy(d.cells, joined(text(look{weight: heading}, e.Wheel), form.Unit-1))
	}
	for _, c := range []cell{plain(s.v.TripID), number(look{}, "0", float64(j+1)), plain(e.Set), plain(e.Key), plain(e.Unit)} {
		d.hide(c)
	}
	if e.fraction() {
		d.hide(live(look{}, "0.0", expr.F(`IF(ISNUMBER(a),a,"")`, ofText(got))))
	}
	d.add(formRow)
	s.restrict(got, rule{words: e.Words(), date: e.date, most: e.Most, optional: true, fraction: e.fraction()})
	if e.heats && j >= 0 {
		s.heated(d.at(form.Expected), d.at(form.High))
	}
}

// verdict is the status that a filled cell turns live.
func (e entry) verdict(got, low, high expr.Ref) cell {
	value := expr.X(got)
	if e.fraction() {
		value = asNumber(got)
	}
	filled := func(then expr.X) cell { return live(look{}, "", expr.F(`IF(a="","",b)`, got, then)) }
	when := func(word logbook.Finding, says string, otherwise expr.X) expr.X {
		return expr.F("IF(a=b,c,d)", got, expr.Text(word), expr.Text(says), otherwise)
	}
	bad := kind.Forbidding(e.Reading)
	switch {
	case bad != nil:
		then := expr.X(expr.Text("good"))
		for _, word := range bad {
			then = when(word, "STOP", then)
		}
		if e.nearly != "" {
			then = when(e.nearly, "nearly the end", then)
		}
		return filled(then)
	case e.w != nil:
		within := expr.X(expr.Text("as expected"))
		if e.low.value != nil {
			within = expr.F(`IF(a<b,"LOWER than expected",IF(a>c,"higher than expected",d))`, value, low, high, within)
		}
		return filled(e.number(value, status(value, e.w.point, within)))
	case e.Full != "":
		return filled(when(e.Full, "good", expr.Text("top up")))
	case e.Words() == nil && !e.date:
		return filled(e.number(got, expr.Text("")))
	}
	return blank(look{})
}

// fraction is whether the cell takes thirty-seconds, and so is a text.
func (e entry) fraction() bool { return strings.HasPrefix(e.Unit, "1/") }

// ofText is the number in a cell that takes thirty-seconds: 5.5 or 5.5/32.
func ofText(at expr.Ref) expr.X { return expr.F(`VALUE(SUBSTITUTE(a,"/32",""))`, at) }

// asNumber is the hidden cell that holds it.
func asNumber(at expr.Ref) expr.Ref {
	return expr.Ref{Sheet: form.Sheet, Col: form.FirstKey + form.KeyNumber, Row: at.Row, V: empty}
}

// number is what follows from a cell that holds a number in range.
func (e entry) number(got expr.X, then expr.X) expr.X {
	r := rule{most: e.Most}
	return expr.F("IF(ISNUMBER(a),IF(AND(a>=0,a<=b),c,d),d)", got, expr.Num(r.upTo()), then, expr.Text(notNumber))
}
