package workbook

import (
	"fmt"
	"slices"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner/workbook/expr"
)

// rule says what may be written into input cells: one of a few words, a date
// or a number from none up to a most.
type rule struct {
	words []string
	date  bool
	whole bool    // a number without decimals
	most  float64 // 0 for whatever a number may be
	cells []string
}

// days of the format's calendar: 1 January 2000 and 31 December 2199
const (
	firstDay = 36526
	lastDay  = 109574
	noMore   = 9_999_999 // no measure on the form is longer
)

// restrict adds a cell to the rule that fits, or makes the rule.
func (s *sheet) restrict(at expr.Ref, r rule) {
	for _, have := range s.rules {
		if have.date == r.date && have.whole == r.whole && have.most == r.most && slices.Equal(have.words, r.words) {
			have.cells = append(have.cells, at.Free().Name())
			return
		}
	}
	r.cells = []string{at.Free().Name()}
	s.rules = append(s.rules, &r)
}

// validation is the rule as the format has it. An empty cell is always right.
func (r *rule) validation() (*excelize.DataValidation, error) {
	v := excelize.NewDataValidation(true)
	var err error
	switch {
	case r.words != nil:
		v.SetError(excelize.DataValidationErrorStyleStop, "One of the list", "Choose one of the words offered.")
		err = v.SetDropList(r.words)
	case r.date:
		v.SetError(excelize.DataValidationErrorStyleStop, "A date", "Write the day you measured.")
		err = v.SetRange(firstDay, lastDay, excelize.DataValidationTypeDate, excelize.DataValidationOperatorBetween)
	default:
		most := r.most
		if most == 0 {
			most = noMore
		}
		kind := choose[excelize.DataValidationType](r.whole, excelize.DataValidationTypeWhole, excelize.DataValidationTypeDecimal)
		v.SetError(excelize.DataValidationErrorStyleStop, "A number", fmt.Sprintf("Write a number from 0 to %.6g in the unit of the row, without the unit.", most))
		err = v.SetRange(0.0, most, kind, excelize.DataValidationOperatorBetween)
	}
	for _, at := range r.cells {
		v.SetSqref(at)
	}
	return v, err
}
