package workbook

import (
	"slices"

	"example.com/tripwear/planner/workbook/expr"

	"example.com/tripwear/planner/workbook/form"
)

// inputsName is the hidden sheet that holds every number to write in against
// what it may be: a blank, a text or a number out of range is no number, and
// nothing that follows from one is good.
const inputsName = "Inputs"

// notNumber is the status of what follows from such a cell.
const notNumber = "NOT A NUMBER"

// Columns of the Inputs sheet.
const (
	inputSheet = 1 + iota
	inputCell
	inputWrong
)

// How many inputs are wrong, in fixed cells, so that what is laid out first can
// point there.
var (
	wearWrong  = expr.At(inputsName, inputWrong, 3, 0).Far() // on Legs and Wear
	roomWrong  = expr.At(inputsName, inputWrong, 4, 0).Far() // of the trunk
	anyWrong   = expr.At(inputsName, inputWrong, 5, 0).Far()
	firstWrong = expr.Ref{Sheet: inputsName, Col: inputSheet, Row: 6, V: expr.Text("").Value()}.Far() // in words
	decided    = expr.At(inputsName, inputWrong, 7, 1).Far()                                          // 1 where sheets show the car as decided
)

// ifDecided is what a cell shows as decided, and as it stands.
func ifDecided(yes, no expr.X) expr.X { return expr.F("IF(a>0,b,c)", decided, yes, no) }

// orNotNumber is what follows from inputs, unless some of them are wrong.
func orNotNumber(wrong expr.Ref, x expr.X) expr.X {
	return expr.F("IF(a>0,b,c)", wrong, expr.Text(notNumber), x)
}

// wrong is 1 for a cell that does not hold what its rule takes, else 0.
func (r *rule) wrong(at expr.Ref) expr.X {
	value := expr.X(at)
	if r.fraction {
		value = asNumber(at)
	}
	x := expr.F("IF(ISNUMBER(a),IF(AND(a>=b,a<=c),0,1),1)", value, expr.Num(r.least), expr.Num(r.upTo()))
	if r.fraction {
		return expr.F(`IF(a="",0,b)`, at, x)
	}
	if r.optional {
		return expr.F(`IF(ISNUMBER(a),b,IF(ISTEXT(a),IF(a="",0,1),0))`, at, x)
	}
	return x
}

// inputsOf lists the inputs of sheets.
func inputsOf(all []*sheet) *sheet {
	s := &sheet{name: inputsName, hidden: true, widths: []float64{24, 12, 9}}
	s.title("Inputs", "Every number to write in, and 1 where it is not one: blank, a text or out of range.")
	const first = 9
	var names, cells, wear, room, every expr.Run
	var rows [][]cell
	for _, from := range inputSheets(all) {
		for _, r := range from.rules {
			if r.words != nil || r.date {
				continue
			}
			for _, at := range r.refs {
				n := first + len(rows)
				wrong := live(look{}, "0", r.wrong(at.Far()))
				rows = append(rows, []cell{text(look{}, from.name), text(look{}, at.Free().Name()), wrong})
				mine := s.at(inputWrong, n, 0)
				names, cells, every = append(names, s.at(inputSheet, n, 0)), append(cells, s.at(inputCell, n, 0)), append(every, mine)
				switch from.name {
				case legsName, wearName:
					wear = append(wear, mine)
				case shopName:
					if r.room {
						room = append(room, mine)
					}
				}
			}
		}
	}
	total := func(name string, of expr.Run) {
		s.add(text(look{}, name), blank(look{}), flag(expr.F("SUM(a)", of)))
	}
	total("on Legs and Wear", wear)
	total("of the trunk", room)
	total("in all", every)
	found := expr.F(`"NOT A NUMBER: "&INDEX(a,MATCH(1,b,0))&"!"&INDEX(c,MATCH(1,b,0))`, names, every, cells)
	s.add(live(look{}, "", expr.F(`IF(a>0,b,"")`, anyWrong, found)), blank(look{}), blank(look{}))
	s.add(text(look{}, "as decided"), blank(look{}), flag(expr.F("IF(a=b,1,0)", shows, expr.Text(asDecided))))
	s.add(left("Sheet"), left("Cell"), right("Wrong"))
	for _, r := range rows {
		s.add(r...)
	}
	return s
}

// inputSheets are those with numbers to write in.
func inputSheets(all []*sheet) []*sheet {
	var out []*sheet
	for _, name := range []string{legsName, wearName, shopName, form.Sheet} {
		if i := slices.IndexFunc(all, func(s *sheet) bool { return s.name == name }); i >= 0 {
			out = append(out, all[i])
		}
	}
	return out
}
