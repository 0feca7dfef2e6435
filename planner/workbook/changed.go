package workbook

import (
	"example.com/tripwear/planner/workbook/expr"
)

// Sheets that hold inputs. Beside their first row each counts, in a hidden
// cell, how many of its inputs are not as planned; Legs also how many lengths
// of sessions are not.
const (
	legsName  = "Legs"
	carName   = "Car"
	shopName  = "Shopping list"
	trunkName = "Packing"
)

func counter(sheet string, widths []float64, i int) expr.Ref {
	return expr.At(sheet, len(widths)+2+i, 1, 0).Far()
}

var (
	legsChanged    = counter(legsName, legWidths, 0)
	minutesCounter = counter(legsName, legWidths, 1)
	carChanged     = counter(carName, carWidths, 0)
	shopChanged    = counter(shopName, shopWidths, 0)
	trunkChanged   = counter(trunkName, trunkWidths, 0)

	wearChanged = expr.F("a+b", legsChanged, carChanged)
	roomChanged = expr.F("a+b", shopChanged, trunkChanged)
	anyChanged  = expr.F("a+b+c+d", legsChanged, carChanged, shopChanged, trunkChanged)
)

// Messages of changed inputs.
const (
	minutesChanged = "MINUTES CHANGED: "
	minutesMessage = minutesChanged + "pads and rotors heat otherwise in longer or shorter sessions; theirs and what is \"as planned\" are struck out. Plan the changed trip with tripwear."
	inputsMessage  = "INPUTS CHANGED: figures marked \"as planned\" are struck out and no longer hold. Plan the changed trip with tripwear."
	choiceMessage  = "INPUTS CHANGED: what is struck out was decided for the plan as it was. Plan the changed trip with tripwear."
)

// warn tells on a sheet that wear inputs have changed.
func warn(s *sheet) {
	s.warn(whenever(minutesCounter, minutesMessage, whenever(wearChanged, inputsMessage, expr.Text(""))))
}

// warnAll tells the same of any input, prices and room included.
func warnAll(s *sheet) {
	s.warn(whenever(minutesCounter, minutesMessage, whenever(anyChanged, choiceMessage, expr.Text(""))))
}

// warnRoom tells on the lists that their own inputs or others have changed.
func warnRoom(s *sheet, message string) {
	s.warn(whenever(roomChanged, message, whenever(wearChanged, choiceMessage, expr.Text(""))))
}

// whenever is a message that stands where flags count any.
func whenever(flags expr.X, message string, otherwise expr.X) expr.X {
	return expr.F("IF(a>0,b,c)", flags, expr.Text(message), otherwise)
}

// differing counts a row whose one, two or three inputs are not as planned.
var differing = []string{1: "IF(a<>b,1,0)", 2: "IF(OR(a<>b,c<>d),1,0)", 3: "IF(OR(a<>b,c<>d,e<>f),1,0)"}

// changed hides whether any of the row's inputs is not as planned; its caller
// hides them as planned next.
func (d *draft) changed(inputs ...expr.Ref) expr.Ref {
	var pairs []expr.X
	for i, at := range inputs {
		pairs = append(pairs, at, d.beside(1+i, at.V))
	}
	return d.hide(flag(expr.F(differing[len(inputs)], pairs...)))
}

// flag is a hidden cell that counts, and mark one that says so on paper.
func flag(x expr.X) cell { return live(look{}, "0", x) }

func changedMark(flag expr.Ref) cell {
	return live(look{box: true, weight: warning}, "", expr.F(`IF(a>0,"changed","")`, flag))
}
