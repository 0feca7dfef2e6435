package workbook

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner/workbook/expr"

	"example.com/tripwear/planner/workbook/form"
)

// rule says what may be written into input cells: one of a few words, a date
// or a number from a least, none by default, up to a most.
type rule struct {
	words []string
	date  bool
	whole bool // a number without decimals
	least float64
	most  float64 // 0 for whatever a number may be
	refs  []expr.Ref

	optional bool // blank where it is not known
	room     bool // of the trunk
	fraction bool // in thirty-seconds: a text
}

// restrict adds a cell to the rule that fits, or makes the rule.
func (s *sheet) restrict(at expr.Ref, r rule) {
	for _, have := range s.rules {
		if have.date == r.date && have.whole == r.whole && have.least == r.least && have.most == r.most && have.optional == r.optional && have.room == r.room && have.fraction == r.fraction && slices.Equal(have.words, r.words) {
			have.refs = append(have.refs, at)
			return
		}
	}
	r.refs = []expr.Ref{at}
	s.rules = append(s.rules, &r)
}

// validate puts the rules on the sheet. An empty cell is always right.
func (s *sheet) validate(f *excelize.File) error {
	for _, r := range s.rules {
		v := excelize.NewDataValidation(true)
		if err := errors.Join(r.set(v), f.AddDataValidation(s.name, v)); err != nil {
			return err
		}
	}
	return nil
}

// upTo is the most that a number may be.
func (r *rule) upTo() float64 { return cmp.Or(r.most, form.NoMore) }

// set writes the rule as the format has it.
func (r *rule) set(v *excelize.DataValidation) error {
	for _, at := range r.refs {
		v.SetSqref(at.Free().Name())
	}
	switch {
	case r.words != nil:
		v.SetError(excelize.DataValidationErrorStyleStop, "One of the list", "Choose one of the words offered.")
		return v.SetDropList(r.words)
	case r.date:
		v.SetError(excelize.DataValidationErrorStyleStop, "A date", "Write the day you measured.")
		return v.SetRange(form.FirstDay, form.LastDay, excelize.DataValidationTypeDate, excelize.DataValidationOperatorBetween)
	}
	most := r.upTo()
	if r.fraction {
		v.SetError(excelize.DataValidationErrorStyleStop, "A tread depth", "Write thirty-seconds of an inch, such as 5.5 or 5.5/32.")
		v.Type, v.Formula1 = "custom", "ISNUMBER("+expr.Formula(ofText(r.refs[0].Free()), r.refs[0].Sheet)+")"
		return nil
	}
	kind := choose[excelize.DataValidationType](r.whole, excelize.DataValidationTypeWhole, excelize.DataValidationTypeDecimal)
	v.SetError(excelize.DataValidationErrorStyleStop, "A number", fmt.Sprintf("Write a number from %.6g to %.6g in the unit of the row, without the unit.", r.least, most))
	return v.SetRange(r.least, most, kind, excelize.DataValidationOperatorBetween)
}
