package workbook

import (
	"fmt"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
)

// What an eye or a hand can find: the words the form offers.
var (
	byFace  = []string{"smooth", "light checks", "nail catches", "crack at an edge"}
	byHand  = []string{"good", "play", "rough", "nut mark moved"}
	byStick = []string{"at FULL", "below FULL", "below ADD"}
)

// measurements is the form to fill in before leaving and after every driven
// leg, a page each, wheel by wheel as one walks round the car.
func (b *book) measurements() *sheet {
	s := &sheet{name: "Measurements", locked: true, side: 2, widths: []float64{8, 31, 10, 10, 10, 10, 18, 20}}
	s.title("Measurements", "Write in the marked cells only; measure cold, at the same spots each time. Expected values take the car as it stands: once a set is renewed, measure the new part and go by its own numbers.")
	s.add(left("Wheel"), left("What"), right("Expected"), right("Low, 5 %"), right("High, 95 %"), left("Unit"), left("Measured"), left("Note"))
	s.head = 3
	b.occasion(s, -1)
	for _, j := range b.driven {
		s.pageBreak()
		b.occasion(s, j)
	}
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
	s.ask(entry{what: "date", unit: "day"})
	s.ask(entry{what: "odometer", unit: b.u.distance.name, expected: b.u.distance.in(look{}, metres)})
	for _, place := range walk {
		wheel := place
		for _, e := range b.wheel(place, j) {
			e.wheel, wheel = wheel, ""
			s.ask(e)
		}
	}
	s.ask(entry{wheel: "engine", what: "oil level, warm", unit: "by dipstick", words: byStick, expected: text(look{across: "right"}, "at FULL")})
	s.ask(entry{what: "oil added since the last page", unit: b.u.oil.name})
	s.ask(entry{wheel: "brakes", what: "water in the fluid", unit: "%"})
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

// formRow is points enough to write in by hand; a page of the form still
// fits A4 and Letter.
const formRow = 22

// ask appends an entry; its measured cell takes what its rule allows.
func (s *sheet) ask(e entry) {
	input, r := look{input: true}, rule{words: e.words}
	if e.what == "date" {
		input.format, r.date = asDate, true
	}
	cells := []cell{text(look{weight: strong}, e.wheel), text(look{}, e.what), e.expected, e.low, e.high, text(look{}, e.unit), blank(input), blank(look{input: true})}
	for i := range cells {
		cells[i].look.middle = true
		cells[i].look.over = e.wheel != "" && !cells[i].look.input // a rule where a wheel begins
	}
	n := s.addHigh(formRow, cells...)
	s.restrict(fmt.Sprintf("G%d", n), r)
}
