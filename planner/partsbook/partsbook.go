// Package partsbook writes what a car has, what is used of it and what comes due
// as a workbook of one sheet, to print twice a year. The same list gives the same
// bytes.
package partsbook

import (
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/durable"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/profiles/sheet/pack"
)

const (
	name   = "Parts"
	header = 4 // row of the headings
)

// columns are the headings and their widths in characters.
var columns = []struct {
	head  string
	width float64
}{
	{"set", 26}, {"part", 28}, {"used", 8}, {"where, by what", 22}, {"due at the usual use", 20},
	{"heat cycles", 8}, {"of", 6}, {"to watch", 44}, {"how it is known", 36},
}

// Save writes the list to path, whole or not at all.
func Save(path string, inv *plan.Inventory, units quantity.System) error {
	return durable.Replace(path, func(w io.Writer) error { return Write(w, inv, units) })
}

// Write writes the list as an .xlsx workbook, in US or metric units.
func Write(w io.Writer, inv *plan.Inventory, units quantity.System) (err error) {
	f := excelize.NewFile()
	defer func() { err = errors.Join(err, f.Close()) }()
	if err := f.SetSheetName("Sheet1", name); err != nil {
		return err
	}
	looks, err := newLooks(f)
	if err != nil {
		return err
	}
	s := sheet{f, looks}
	for _, step := range []func() error{
		func() error { return s.top(inv, units) },
		func() error { return s.table(inv) },
		func() error { return s.page(inv, units) },
	} {
		if err := step(); err != nil {
			return err
		}
	}
	return pack.Write(w, f)
}

// looks are the styles of cells.
type looks struct{ title, head, text, share, month, count, past int }

func newLooks(f *excelize.File) (l looks, err error) {
	month, none := "mmm yyyy", []excelize.Border{{Type: "bottom", Color: "BFBFBF", Style: 1}}
	wrap := &excelize.Alignment{WrapText: true, Vertical: "top"}
	for _, one := range []struct {
		id    *int
		style excelize.Style
	}{
		{&l.title, excelize.Style{Font: &excelize.Font{Bold: true, Size: 14}}},
		{&l.head, excelize.Style{Font: &excelize.Font{Bold: true}, Alignment: wrap, Border: []excelize.Border{{Type: "bottom", Color: "000000", Style: 2}}}},
		{&l.text, excelize.Style{Alignment: wrap, Border: none}},
		{&l.share, excelize.Style{NumFmt: 9, Alignment: &excelize.Alignment{Vertical: "top"}, Border: none}},
		{&l.month, excelize.Style{CustomNumFmt: &month, Alignment: &excelize.Alignment{Vertical: "top", Horizontal: "left"}, Border: none}},
		{&l.count, excelize.Style{NumFmt: 1, Alignment: &excelize.Alignment{Vertical: "top"}, Border: none}},
		{&l.past, excelize.Style{Font: &excelize.Font{Bold: true}, Alignment: wrap, Border: none}},
	} {
		if *one.id, err = f.NewStyle(&one.style); err != nil {
			return l, err
		}
	}
	return l, nil
}

type sheet struct {
	f *excelize.File
	looks
}

// put sets a cell; nil leaves it empty.
func (s sheet) put(column, row int, value any, style int) error {
	cell, err := excelize.CoordinatesToCellName(column, row)
	if err != nil {
		return err
	}
	if text, ok := value.(string); ok {
		err = s.f.SetCellStr(name, cell, text)
	} else {
		err = s.f.SetCellValue(name, cell, value)
	}
	return errors.Join(err, s.f.SetCellStyle(name, cell, cell, style))
}

// top says which car it is, and what its usual use is.
func (s sheet) top(inv *plan.Inventory, units quantity.System) error {
	way := quantity.Distance[units]
	use := "nobody knows"
	if known := inv.Usual(way.Text); known != "" {
		use = known
	}
	return errors.Join(
		s.put(1, 1, fmt.Sprintf("%s at %s on %s", inv.Car, way.Text(inv.Odometer), inv.Day.Format("2 Jan 2006")), s.title),
		s.put(1, 2, "Usual use: "+use+". Nominal, at the limit: a plan says what a trip takes, with its chances. Inspect before every session.", 0),
	)
}

func (s sheet) table(inv *plan.Inventory) error {
	var errs []error
	for i, c := range columns {
		letter, err := excelize.ColumnNumberToName(i + 1)
		errs = append(errs, err, s.f.SetColWidth(name, letter, letter, c.width), s.put(i+1, header, c.head, s.head))
	}
	for i, p := range inv.Parts {
		due, look := any(p.Comes()), s.text
		switch {
		case p.Past():
			look = s.past
		case !p.Due.IsZero():
			due, look = p.Due, s.month
		}
		var cycles, most any
		if p.Cycles != nil {
			cycles = *p.Cycles
		}
		if p.Most > 0 {
			most = p.Most
		}
		for column, cell := range []struct {
			value any
			look  int
		}{
			{p.Name, s.text}, {p.PartName, s.text}, {math.Round(100*p.Used) / 100, s.share}, {p.By, s.text}, {due, look},
			{cycles, s.count}, {most, s.count}, {strings.Join(p.Notes, "; "), s.text}, {p.Measured, s.text},
		} {
			errs = append(errs, s.put(column+1, header+1+i, cell.value, cell.look))
		}
	}
	return errors.Join(errs...)
}

// page has the sheet print one page wide, with its headings on each.
func (s sheet) page(inv *plan.Inventory, units quantity.System) error {
	letter, a4, wide, tall := 1, 9, 1, 0
	size := &a4
	if units == quantity.US {
		size = &letter
	}
	landscape, fits := "landscape", true
	stamp := inv.Day.UTC().Format(time.RFC3339)
	return errors.Join(
		s.f.SetSheetProps(name, &excelize.SheetPropsOptions{FitToPage: &fits}),
		s.f.SetPageLayout(name, &excelize.PageLayoutOptions{Size: size, Orientation: &landscape, FitToWidth: &wide, FitToHeight: &tall}),
		s.f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: fmt.Sprintf("%s!$%d:$%d", name, header, header), Scope: name}),
		s.f.SetHeaderFooter(name, &excelize.HeaderFooterOptions{OddFooter: "&LPlanning estimate: inspect before every session&R&P of &N"}),
		s.f.SetPanes(name, &excelize.Panes{Freeze: true, XSplit: 1, YSplit: header, TopLeftCell: fmt.Sprintf("B%d", header+1), ActivePane: "bottomRight"}),
		s.f.SetDocProps(&excelize.DocProperties{Title: inv.Car + ": parts", Creator: "tripwear", Created: stamp, Modified: stamp, LastModifiedBy: "tripwear", Language: "en"}),
		s.f.SetAppProps(&excelize.AppProperties{Application: "tripwear"}),
	)
}
