package workbook

import (
	"fmt"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
)

// What an eye or a hand can find: the words the form offers.
var (
	byFace  = []string{"smooth", "checks, nail does not catch", "checks catch the nail", "crack at an edge"}
	byHand  = []string{"good", "play", "rough", "nut mark moved"}
	byStick = []string{"at FULL", "below FULL", "below ADD"}
)

// form is the Measurements sheet with the rules of its input cells.
type form struct {
	*sheet
	number, date *excelize.DataValidation
	words        map[string]*excelize.DataValidation // by the first word offered
}

// inputColumn is where the owner writes; the note beside it is his too.
const inputColumn = 7

// measurements is the form to fill in before leaving and after every driven
// leg, a page each, wheel by wheel as one walks round the car.
func (b *book) measurements() *sheet {
	s := &sheet{name: "Measurements", locked: true, side: 2, widths: []float64{8, 31, 10, 10, 10, 10, 18, 20}}
	s.title("Measurements", "Write in the marked cells only; measure cold, at the same spots each time. Expected values take the car as it stands: once a set is renewed, measure the new part and go by its own numbers.")
	s.heads("Wheel", "What", "Expected", "Low, 5 %", "High, 95 %", "Unit", "Measured", "Note")
	s.head = 3
	f := &form{sheet: s, words: map[string]*excelize.DataValidation{}}
	b.occasion(f, -1)
	for _, j := range b.driven {
		s.pageBreak()
		b.occasion(f, j)
	}
	return s
}

// occasion is one page of the form: after leg j, or before leaving at -1.
func (b *book) occasion(f *form, j int) {
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
	f.span(look{weight: part}, name)
	f.ask(entry{what: "date", unit: "day"})
	f.ask(entry{what: "odometer", unit: b.u.distance.name, expected: b.u.distance.in(look{}, metres)})
	for _, place := range walk {
		wheel := place
		for _, e := range b.wheel(place, j) {
			e.wheel, wheel = wheel, ""
			f.ask(e)
		}
	}
	f.ask(entry{wheel: "engine", what: "oil level, warm", unit: "by dipstick", words: byStick, expected: text(look{}, "at FULL")})
	f.ask(entry{what: "oil added since the last page", unit: b.u.oil.name})
	f.ask(entry{wheel: "brakes", what: "water in the fluid", unit: "%"})
	f.closeBox()
}

// entry is one row of the form.
type entry struct {
	wheel, what, unit   string
	expected, low, high cell
	words               []string // what may be written; nil for a number
}

// wheel lists what is measured at one wheel after leg j.
func (b *book) wheel(place string, j int) []entry {
	var out []entry
	for _, t := range b.p.Sets {
		for _, p := range t.Points {
			if p.Place != place {
				continue
			}
			u := b.u.level(p.Measure)
			e := entry{unit: u.name, expected: u.in(look{}, p.Start)}
			if j >= 0 {
				a := p.After[j]
				e.expected = u.in(look{}, a.P50)
				e.low, e.high = u.in(look{weight: quiet}, a.P5), u.in(look{weight: quiet}, a.P95)
			}
			switch p.Measure {
			case planner.Tread:
				e.what = "tread, " + p.Zone
			case planner.PadLining:
				e.what = "pad, thinnest end"
			case planner.Thickness:
				e.what = "rotor thickness"
			case planner.Crack:
				e.what, e.unit, e.words = "rotor face; expected: life left", "by eye", byFace
			case planner.HubLife:
				e = entry{what: "hub at 12 and 6; expected: good", unit: "by hand", words: byHand}
				if j >= 0 {
					e.expected = b.u.chance.in(look{}, 1-p.After[j].PLimit)
				}
			default:
				e.what = string(p.Measure)
			}
			out = append(out, e)
		}
	}
	return out
}

// formRow is high enough to write in by hand, and lets a page of the form
// fit A4 and Letter.
const formRow = 17

// ask appends an entry and gives its input cell a rule.
func (f *form) ask(e entry) {
	input := look{input: true}
	if e.what == "date" {
		input.format = asDate
	}
	n := f.addHigh(formRow, text(look{weight: strong}, e.wheel), text(look{}, e.what),
		e.expected, e.low, e.high, text(look{}, e.unit), blank(input), blank(look{input: true}))
	at := fmt.Sprintf("G%d", n)
	switch {
	case e.words != nil:
		f.offer(e.words).SetSqref(at)
	case e.what == "date":
		if f.date == nil {
			f.date = f.rule("Date", "Write a date.")
			// any day after 1999; the format counts days
			_ = f.date.SetRange(36526, 109574, excelize.DataValidationTypeDate, excelize.DataValidationOperatorBetween)
		}
		f.date.SetSqref(at)
	default:
		if f.number == nil {
			f.number = f.rule("Number", "Write a number in the unit beside it.")
			_ = f.number.SetRange(0, 9999999, excelize.DataValidationTypeDecimal, excelize.DataValidationOperatorBetween)
		}
		f.number.SetSqref(at)
	}
}

// offer is the rule of a list of words.
func (f *form) offer(words []string) *excelize.DataValidation {
	if f.words[words[0]] == nil {
		f.words[words[0]] = f.rule("One of the list", "Choose one of the words offered.")
	}
	return f.words[words[0]]
}
