package workbook

import (
	"fmt"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
)

// What an eye or a hand can find: the words the form offers.
var (
	byFace  = []string{"smooth", "checks", "catches", "edge"}
	byHand  = []string{"tight", "play", "rough", "moved"}
	byTire  = []string{"sound", "cut", "cords"}
	byPad   = []string{"even", "taper", "indicator", "plate"}
	byBowl  = []string{"clear", "amber", "dark"}
	byFoot  = []string{"firm", "long", "soft"}
	byStick = []string{"full", "below full", "below add"}
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

// measurements is the form to fill in before leaving and after every driven
// leg, a page each, wheel by wheel as one walks round the car.
func (b *book) measurements() *sheet {
	s := &sheet{name: formName, side: 2, widths: formWidths}
	s.title("Measurements", "Write in the marked cells only; measure cold, at the same spots each time; for rotors and hubs choose the word. Expected is nominal for the car as it stands: once a set is renewed, go by the new part's own numbers.")
	b.warn(s)
	s.add(left("Wheel"), left("What"), right("Expected"), right("Low, 5 %"), right("High, 95 %"), left("Unit"), left("Measured"), left("Status"), left("Note"))
	s.head = len(s.rows)
	first := s.next()
	b.occasion(s, -1)
	for _, j := range b.driven {
		s.pageBreak()
		b.occasion(s, j)
	}
	from, to := s.at(formStatus, first, 0), s.at(formStatus, s.next()-1, 0)
	at := relative(from.in(s))
	s.marks = append(s.marks,
		mark{from.upTo(to, s), fmt.Sprintf(`OR(%[1]s=%[2]s,%[1]s="STOP")`, at, quoted(pastLimit)), out},
		mark{from.upTo(to, s), fmt.Sprintf(`OR(%[1]s=%[2]s,LEFT(%[1]s,5)="LOWER")`, at, quoted(belowMargin)), low})
	return s
}

// occasion is one page of the form: after leg j, or before leaving at -1.
func (b *book) occasion(s *sheet, j int) {
	name, metres := "Before leaving", b.p.Odometer
	if j >= 0 {
		name = "After leg " + b.legName(j)
		if b.has(j+1) && b.p.Legs[j+1].Kind == profiles.StopLeg {
			name += ", at " + b.p.Legs[j+1].Name
		}
		for _, l := range b.p.Legs[:j+1] {
			metres += l.Metres
		}
	}
	s.span(look{weight: part}, name)
	b.ask(s, j, entry{what: "date", unit: "day", key: "date", rule: rule{date: true}})
	driven := b.u.distance.of(metres)
	odometer := fmt.Sprintf("%s+SUM(%s)", literal(b.u.distance.of(b.p.Odometer)), b.trip.at(legDistance, legFirst, 0).upTo(b.trip.at(legDistance, legFirst+max(0, j), 0), s))
	expected := live(look{}, b.u.distance.format, odometer, driven)
	if j < 0 {
		expected = number(look{}, b.u.distance.format, driven)
	}
	b.ask(s, j, entry{what: "odometer", unit: b.u.distance.name, key: "odometer", expected: expected, rule: rule{most: noMore}})
	for _, place := range walk {
		wheel := place
		for _, e := range b.wheel(s, place, j) {
			e.wheel, wheel = wheel, ""
			b.ask(s, j, e)
		}
	}
	b.ask(s, j, entry{wheel: "engine", what: "oil level, warm", unit: "dipstick", set: "oil", key: "level", rule: rule{words: byStick}, expected: text(look{across: "right"}, "full")})
	b.ask(s, j, entry{what: "oil added since last page", unit: b.u.oil.name, set: "oil", key: "added", rule: rule{most: 50}})
	b.ask(s, j, entry{wheel: "brakes", what: "water in the fluid", unit: "%", set: "fluid", key: "water", rule: rule{most: 10}})
	b.ask(s, j, entry{what: "colour of the fluid", unit: "by eye", set: "fluid", key: "colour", rule: rule{words: byBowl}})
	b.ask(s, j, entry{what: "pedal", unit: "by foot", set: "fluid", key: "pedal", rule: rule{words: byFoot}, bad: byFoot[1:]})
}

// entry is one row of the form.
type entry struct {
	wheel, what, unit   string
	set, key            string // of the reading
	expected, low, high cell
	rule                rule
	w                   *wearing // judged by its margin and limit; nil where there is none
	bad                 []string // words that end the driving
	heats               bool
}

// wheel lists what is measured at one wheel after leg j.
func (b *book) wheel(s *sheet, place string, j int) []entry {
	var out []entry
	for _, t := range b.p.Sets {
		for _, p := range t.Points {
			if p.Place != place {
				continue
			}
			w, st, _ := b.after(p, j)
			u := w.u
			e := entry{set: t.ID, key: pointKey(p), unit: u.name, w: w, heats: heats(p.Measure), rule: rule{most: 2*w.fresh.v + 1}}
			e.expected = live(look{}, u.format, fmt.Sprintf("MAX(0,%s)", st.left.in(s)), max(0, st.left.v))
			if j >= 0 && w.banded() {
				e.low = live(look{weight: quiet}, u.format, fmt.Sprintf("MAX(0,%s)", st.lo.in(s)), max(0, st.lo.v))
				e.high = live(look{weight: quiet}, u.format, fmt.Sprintf("MAX(0,%s)", st.hi.in(s)), max(0, st.hi.v))
			}
			var eye entry // what an eye finds beside a reading
			switch p.Measure {
			case planner.Tread:
				e.what = "tread, " + p.Zone
				if p.Zone == "outside" {
					eye = entry{what: "tire, cuts and cords", unit: "by eye", set: t.ID, key: place + "//found", rule: rule{words: byTire}, bad: byTire[1:]}
				}
			case planner.PadLining:
				e.what = "pad, thinnest end"
				eye = entry{what: "pad wear", unit: "by eye", set: t.ID, key: place + "//lining", rule: rule{words: byPad}, bad: byPad[3:]}
			case planner.Thickness:
				e.what = "rotor thickness"
			case planner.Crack:
				e.what, e.unit, e.rule, e.w, e.bad = "rotor face (life left)", "by eye", rule{words: byFace}, nil, byFace[3:]
			case planner.HubLife:
				e.what, e.unit, e.rule, e.w, e.bad = "hub at 12 and 6 (lasts)", "by hand", rule{words: byHand}, nil, byHand[1:]
				e.expected = cell{}
				if j >= 0 {
					e.expected = asPlanned(b.u.chance.in(look{}, 1-p.After[j].PLimit))
				}
			default:
				e.what = string(p.Measure)
			}
			out = append(out, e)
			if eye.what != "" {
				out = append(out, eye)
			}
		}
	}
	return out
}

// pointKey names a point in a hidden key: its place, zone and measure.
func pointKey(p planner.Point) string {
	return p.Place + "/" + p.Zone + "/" + string(p.Measure)
}

// formRow is points enough to write in by hand; a page of the form still
// fits A4 and Letter.
const formRow = 19

// ask appends an entry; its measured cell takes what its rule allows.
func (b *book) ask(s *sheet, j int, e entry) {
	n := s.next()
	input := look{input: true, across: "center"}
	if e.rule.date {
		input.format = asDate
	}
	cells := []cell{text(look{weight: strong}, e.wheel), text(look{}, e.what), e.expected, e.low, e.high, text(look{}, e.unit), blank(input), e.verdict(s, n), blank(look{input: true})}
	for i := range cells {
		cells[i].look.over = e.wheel != "" && !cells[i].look.input // a rule where a wheel begins
	}
	s.addHigh(formRow, cells...)
	s.restrict(s.at(formMeasured, n, 0).in(s), e.rule)
	if e.heats && j >= 0 {
		s.heated(s.at(formExpected, n, 0), s.at(formHi, n, 0))
	}
	plain := func(t string) cell { return text(look{}, t) }
	s.hide(n, plain(b.p.TripID), number(look{}, "0", float64(j+1)), plain(e.set), plain(e.key), plain(e.unit))
}

// verdict is the status that a filled cell turns live.
func (e entry) verdict(s *sheet, n int) cell {
	at := func(col int) string { return s.at(col, n, 0).in(s) }
	got := at(formMeasured)
	filled := func(then string) cell { return told(look{}, fmt.Sprintf(`IF(%s="","",%s)`, got, then), "") }
	switch {
	case e.bad != nil:
		then := quoted("good")
		for _, word := range e.bad {
			then = fmt.Sprintf(`IF(%s=%s,"STOP",%s)`, got, quoted(word), then)
		}
		if len(e.rule.words) > 2 && e.rule.words[2] == byFace[2] {
			then = fmt.Sprintf(`IF(%s=%s,"nearly the end",%s)`, got, quoted(byFace[2]), then)
		}
		return filled(then)
	case e.w != nil:
		within := quoted("as expected")
		if e.low.value != nil {
			within = fmt.Sprintf(`IF(%[1]s<%[2]s,"LOWER than expected",IF(%[1]s>%[3]s,"higher than expected",%[4]s))`, got, at(formLo), at(formHi), within)
		}
		return filled(status(got, e.w.margin.in(s), e.w.limit.in(s), within))
	case e.key == "level":
		return filled(fmt.Sprintf(`IF(%s=%s,"good","top up")`, got, quoted(byStick[0])))
	}
	return blank(look{})
}
