package workbook

import (
	"slices"

	"example.com/tripwear/planner/workbook/expr"
)

// Sheets that hold inputs. Beside their first row each counts, in a hidden
// cell, how many of its inputs are not as planned; Legs also how many lengths
// of sessions are not.
const (
	legsName = "Legs"
	shopName = "Shopping and packing"
)

func counter(sheet string, widths []float64, i int) expr.Ref {
	return expr.At(sheet, len(widths)+2+i, 1, 0).Far()
}

var (
	legsChanged    = counter(legsName, legWidths, 0)
	minutesCounter = counter(legsName, legWidths, 1)
	pointsChanged  = expr.At(wearName, wearWidth+2, 1, 0).Far()
	shopChanged    = counter(shopName, shopWidths, 0)
	trunkChanged   = counter(shopName, shopWidths, 1)

	wearChanged = expr.F("a+b", legsChanged, pointsChanged)
	roomChanged = expr.F("a+b", shopChanged, trunkChanged)
	anyChanged  = expr.F("a+b+c+d", legsChanged, pointsChanged, shopChanged, trunkChanged)
)

// Messages of changed inputs.
const (
	minutesChanged = "MINUTES CHANGED: "
	minutesMessage = minutesChanged + "what sessions heat and what is as planned are struck out. Plan again."
	inputsMessage  = "INPUTS CHANGED: what is as planned is struck out and no longer holds. Plan again."
	choiceMessage  = "INPUTS CHANGED: what is struck out was decided for the plan as it was. Plan again."
)

// warn tells on a sheet that wear inputs have changed.
func warn(s *sheet) {
	s.warn(whenever(minutesCounter, minutesMessage, whenever(wearChanged, inputsMessage, expr.Text(""))))
}

// warnAll tells the same of any input, prices and room included; one that is no
// number comes first.
func warnAll(s *sheet) {
	s.warn(expr.F("IF(a>0,b,c)", anyWrong, firstWrong, whenever(minutesCounter, minutesMessage, whenever(anyChanged, choiceMessage, expr.Text("")))))
	s.mark(s.at(1, s.banner, 0), s.at(len(s.widths), s.banner, 0), expr.F(`LEFT(a,3)="NOT"`, s.at(1, s.banner, 0)), out)
}

// warnRoom tells on the lists that their own inputs or others have changed.
func warnRoom(s *sheet, message string) {
	s.warn(whenever(roomChanged, message, whenever(wearChanged, choiceMessage, expr.Text(""))))
}

// whenever is a message that stands where flags count any.
func whenever(flags expr.X, message string, otherwise expr.X) expr.X {
	return expr.F("IF(a>0,b,c)", flags, expr.Text(message), otherwise)
}

// unlike is 1 where any of some cells is not as planned: pairs of a cell and what
// it holds in the plan.
func unlike(pairs ...expr.X) expr.X {
	var tests []expr.X
	for two := range slices.Chunk(pairs, 2) {
		tests = append(tests, expr.F("a<>b", two[0], two[1]))
	}
	return expr.F("IF(a,1,0)", expr.Each("OR", tests))
}

// changed hides whether any of the row's inputs is not as planned; its caller
// hides them as planned next.
func (d *draft) changed(inputs ...expr.Ref) expr.Ref {
	var pairs []expr.X
	for i, at := range inputs {
		pairs = append(pairs, at, d.beside(1+i, at.V))
	}
	return d.hide(flag(unlike(pairs...)))
}

// flag is a hidden cell that counts, and mark one that says so on paper.
func flag(x expr.X) cell { return live(look{}, "0", x) }

func changedMark(flag expr.Ref) cell {
	return live(look{box: true, weight: warning}, "", expr.F(`IF(a>0,"changed","")`, flag))
}
