package workbook

import (
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/workbook/expr"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

const formName = "Measurements"

// Columns of the Measurements sheet.
const (
	formExpected = 3
	formLo       = 4
	formHi       = 5
	formUnit     = 6
	formMeasured = 7
	formStatus   = 8
	formNote     = 9
)

// Hidden keys of a row: they say what a reading is of, whatever the row shows.
const (
	keyTrip = iota
	keyLeg  // 0 before leaving, else the leg's number
	keySet
	keyPoint
	keyUnit
)

var formWidths = []float64{7, 24, 9, 9, 9, 9, 13, 19, 17}

// formSheet is the sheet in the making.
type formSheet struct {
	*sheet
	v       view
	all     worn
	through expr.Run // the distance of every leg
}

// measurements is the form to fill in before leaving and after every driven
// leg, a page each, wheel by wheel as one walks round the car.
func measurements(v view, all worn, through expr.Run) *sheet {
	s := formSheet{&sheet{name: formName, side: 2, widths: formWidths}, v, all, through}
	s.title("Measurements", "Write in the marked cells only; measure cold, at the same spots each time; for rotors and hubs choose the word. Expected is nominal for the car as it stands: once a set is replaced, go by the new part's own numbers.")
	warn(s.sheet)
	s.heads(left("Wheel"), left("What"), right("Expected"), right("Low, 5 %"), right("High, 95 %"), left("Unit"), left("Measured"), left("Status"), left("Note"))
	from := s.at(formStatus, s.next(), 0)
	s.page(-1)
	for _, j := range v.driven {
		s.pageBreak()
		s.page(j)
	}
	to, first := s.at(formStatus, s.next()-1, 0), from.Free()
	s.mark(from, to, expr.F(`OR(a=b,a=c,a="STOP")`, first, expr.Text(pastLimit), expr.Text(notNumber)), out)
	s.mark(from, to, expr.F(`OR(a=b,LEFT(a,5)="LOWER")`, first, expr.Text(belowMargin)), low)
	return s.sheet
}

// page is one page of the form: after leg j, or before leaving at -1.
func (s formSheet) page(j int) {
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
	s.span(look{weight: heading}, name)
	s.row(j, entry{ask: ask{what: "date", unit: "day", key: "date"}, date: true})
	s.row(j, entry{ask: ask{what: "odometer", unit: u.name, key: "odometer", most: noMore}, expected: odometer})
	places := slices.Clone(walk)
	for _, w := range s.all { // of what the tables do not know
		if w.other() && !w.Counted && !slices.Contains(places, w.p.Place) {
			places = append(places, w.p.Place)
		}
	}
	for _, place := range places {
		wheel := place
		for _, t := range v.Sets {
			for _, p := range t.Points {
				if w := s.all.find(p); w != nil && p.Place == place && !w.Counted {
					wheel = s.point(w, wheel, j)
				}
			}
		}
	}
	for _, k := range kind.All {
		for _, a := range asks[k.ID] {
			e := entry{ask: a}
			if a.unit == "" {
				e.unit = v.u.oil.name
			}
			if a.full != "" {
				e.expected = text(look{across: "right"}, string(a.full))
			}
			s.row(j, e)
		}
	}
}

// entry is one row of the form.
type entry struct {
	ask
	expected, low, high cell
	date                bool
	w                   *wearing // compared with its margin and limit; nil where there is none
	heats               bool
	nearly              logbook.Finding // the one that is nearly the end
}

// point asks for a point after leg j, and for what an eye finds beside it. It
// gives the wheel's name for the row that follows: a wheel is named once.
func (s formSheet) point(w *wearing, wheel string, j int) string {
	p, u := *w.p, w.u
	st, _ := w.step(s.v, j)
	e := entry{ask: w.asked(), nearly: w.nearly, heats: w.Heats}
	e.wheel, e.set, e.key = wheel, w.set.ID, w.measure.key(p)
	if (w.Zoned() || w.plain) && p.Zone != "" {
		e.what += ", " + p.Zone
	}
	if e.words() == nil {
		e.unit, e.w, e.most = u.name, w, 2*w.fresh.Num()+1
	}
	least := func(l look, level expr.Ref) cell { return live(l, u.format, expr.F("MAX(0,a)", level)) }
	switch {
	case w.banded():
		e.expected = least(look{}, st.left)
		if j >= 0 {
			e.low, e.high = least(look{weight: quiet}, st.lo), least(look{weight: quiet}, st.hi)
		}
	case j >= 0:
		e.expected = asPlanned(s.v.u.chance.in(look{}, 1-p.After[j].PLimit))
	}
	s.row(j, e)
	if p.Zone == choose(w.Zoned(), "outside", "") {
		for _, a := range w.beside() {
			a.set, a.key = w.set.ID, p.Place+"//"+a.key
			s.row(j, entry{ask: a})
		}
	}
	return ""
}

// formRow is points enough to write in by hand; a page of the form still
// fits A4 and Letter.
const formRow = 19

// row appends an entry; its measured cell takes what may be entered.
func (s formSheet) row(j int, e entry) {
	input, plain := look{input: true, across: "center"}, func(t string) cell { return text(look{}, t) }
	if e.date {
		input.format = asDate
	}
	d := s.draft(look{})
	got := d.put(formMeasured, blank(input))
	d.put(1, text(look{weight: strong}, e.wheel))
	d.put(2, plain(e.what))
	d.put(formExpected, e.expected)
	low, high := d.put(formLo, e.low), d.put(formHi, e.high)
	d.put(formUnit, plain(e.unit))
	d.put(formStatus, e.verdict(got, low, high))
	d.put(formNote, blank(look{input: true}))
	for i := range d.cells {
		d.cells[i].look.over = e.wheel != "" && !d.cells[i].look.input // a rule where a wheel begins
	}
	for _, c := range []cell{plain(s.v.TripID), number(look{}, "0", float64(j+1)), plain(e.set), plain(e.key), plain(e.unit)} {
		d.hide(c)
	}
	d.add(formRow)
	s.restrict(got, rule{words: texts(e.words()), date: e.date, most: e.most, optional: true})
	if e.heats && j >= 0 {
		s.heated(d.at(formExpected), d.at(formHi))
	}
}

// verdict is the status that a filled cell turns live.
func (e entry) verdict(got, low, high expr.Ref) cell {
	filled := func(then expr.X) cell { return live(look{}, "", expr.F(`IF(a="","",b)`, got, then)) }
	when := func(word logbook.Finding, says string, otherwise expr.X) expr.X {
		return expr.F("IF(a=b,c,d)", got, expr.Text(word), expr.Text(says), otherwise)
	}
	bad := kind.Forbidding(e.reading)
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
			within = expr.F(`IF(a<b,"LOWER than expected",IF(a>c,"higher than expected",d))`, got, low, high, within)
		}
		return filled(e.number(got, status(got, e.w.point, within)))
	case e.full != "":
		return filled(when(e.full, "good", expr.Text("top up")))
	case e.words() == nil && !e.date:
		return filled(e.number(got, expr.Text("")))
	}
	return blank(look{})
}

// number is what follows from a cell that holds a number in range.
func (e entry) number(got expr.Ref, then expr.X) expr.X {
	r := rule{most: e.most}
	return expr.F("IF(ISNUMBER(a),IF(AND(a>=0,a<=b),c,d),d)", got, expr.Num(r.upTo()), then, expr.Text(notNumber))
}
