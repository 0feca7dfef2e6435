package workbook

import (
	"errors"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner/workbook/expr"
)

// linked is a cell that leads to where its figure comes from.
func linked(c cell, to expr.Ref) cell {
	c.link = to
	return c
}

// link puts the links into the sheet, and one back to the Summary on its title.
func (s *sheet) link(f *excelize.File) error {
	var errs []error
	if s.name != summaryName && s.name != cardName && !s.hidden {
		errs = append(errs, f.SetCellHyperLink(s.name, "A1", expr.Formula(expr.At(summaryName, 1, 1, 0), ""), "Location"))
	}
	for r, line := range s.rows {
		for i, c := range line.cells {
			if c.link.Sheet != "" {
				errs = append(errs, f.SetCellHyperLink(s.name, s.address(i+1, r+1), expr.Formula(c.link, ""), "Location"))
			}
		}
	}
	return errors.Join(errs...)
}
