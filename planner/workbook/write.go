// Package workbook writes a plan as an .xlsx workbook to take along and to
// fill in on the way.
//
// Every sheet prints one page wide on A4 and on Letter and is readable in
// black and white: a status is always a word, never just a color. The same
// plan gives the same bytes. Each figure is rounded to what the model can
// honestly say and its unit stands in the header.
package workbook

import (
	"errors"
	"fmt"
	"io"
	"sync"
	"time"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner/card"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/workbook/expr"
	"example.com/tripwear/profiles/durable"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/profiles/sheet/pack"
)

// errEmpty is a plan without a leg or a set.
var errEmpty = errors.New("workbook: the plan has no legs or no sets")

// book is a plan laid out: its sheets in the order of the workbook.
type book struct {
	view
	sheets []*sheet
	names  []named
	wear   worn
}

// named is a cell that an owner may want to point to.
type named struct {
	name string
	at   expr.Ref
}

// layOut lays out every sheet, what others point to first.
func layOut(p *plan.Plan, system quantity.System) *book {
	v := viewOf(p, system)
	table := newFactors()
	legs, at := legsOf(v, table), pointsOf(v)
	rates, by := ratesOf(v, at, legs, table)
	workings, wear := workingsOf(v, at, by)
	points := wearOf(v, wear)
	list, pay, fits := shopping(v, legs.fuel)
	b := &book{view: v, wear: wear, names: []named{
		{"inputs_changed_legs", legsChanged}, {"inputs_changed_wear", pointsChanged}, {"shown_as_decided", decided},
		{"trip_distance", legs.distance}, {"trip_fuel", legs.fuel}, {"trip_tanks", legs.tanks},
	}}
	if pay != nil {
		b.names = append(b.names, named{"still_to_pay", *pay})
	}
	b.names = append(b.names, named{"boot_volume_left", fits.volume}, named{"boot_payload_left", fits.mass})
	c := card.Of(p, system)
	b.sheets = []*sheet{
		cardOf(v, c), summary(v, c, points, legs, fits), legs.sheet, points.sheet, decisions(v), list, readings(v, wear, legs.through),
		assumptions(v), rates, factorsOf(table), workings,
	}
	b.sheets = append(b.sheets, inputsOf(b.sheets))
	return b
}

// Write writes the plan as an .xlsx workbook, in US or metric units. The same
// plan gives the same bytes: the document's times are the departure.
func Write(w io.Writer, p *plan.Plan, system quantity.System) (err error) {
	if len(p.Legs) == 0 || len(p.Sets) == 0 {
		return errEmpty
	}
	b := layOut(p, system)
	f := excelize.NewFile()
	defer func() { err = errors.Join(err, f.Close()) }()
	if err := b.properties(f); err != nil {
		return err
	}
	pg := page{size: a4, left: p.Trip, right: b.leaves(), below: p.Car + ": planning estimate, inspect before every session"}
	if system == quantity.US {
		pg.size = letter
	}
	*f.Styles.Fonts.Font[0].Sz.Val = 10 // what columns count their width in
	st := newStyles(f)
	sheets := b.sheets
	for i, s := range sheets {
		if i == 0 {
			err = f.SetSheetName("Sheet1", s.name)
		} else {
			_, err = f.NewSheet(s.name)
		}
		if err != nil {
			return err
		}
	}
	for _, s := range sheets { // while all are empty: the library reads every one to hide one
		if s.hidden {
			if err := f.SetSheetVisible(s.name, false); err != nil {
				return err
			}
		}
	}
	streams, errs := make([]*excelize.StreamWriter, len(sheets)), make([]error, len(sheets))
	for i, s := range sheets {
		if streams[i], err = s.begin(f, st, pg); err != nil {
			return fmt.Errorf("sheet %s: %w", s.name, err)
		}
	}
	var all sync.WaitGroup
	for i, s := range sheets {
		all.Go(func() {
			if err := s.stream(streams[i], st); err != nil {
				errs[i] = fmt.Errorf("sheet %s: %w", s.name, err)
			}
		})
	}
	all.Wait()
	if err := errors.Join(errors.Join(errs...), f.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: new(true)})); err != nil {
		return err
	}
	for _, n := range b.names {
		if err := f.SetDefinedName(&excelize.DefinedName{Name: n.name, RefersTo: expr.Formula(n.at, "")}); err != nil {
			return err
		}
	}
	return pack.Write(w, f)
}

// undated stands for a departure that the trip does not give; the format wants a time.
var undated = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

func (v view) properties(f *excelize.File) error {
	at := v.Depart
	if at.IsZero() {
		at = undated
	}
	stamp := at.UTC().Format(time.RFC3339)
	return errors.Join(f.SetDocProps(&excelize.DocProperties{
		Title:    text(look{}, v.Car+": "+v.Trip).value.(string),
		Subject:  "What lasts the trip, what to replace, bring and measure",
		Creator:  "tripwear",
		Keywords: text(look{}, v.TripID).value.(string),
		Created:  stamp, Modified: stamp, LastModifiedBy: "tripwear", Language: "en",
	}), f.SetAppProps(&excelize.AppProperties{Application: "tripwear"}), f.SetDefaultFont(face))
}

// Save writes the plan to path, whole or not at all: its error is a
// *durable.Error, and the file that was there before is then as it was.
func Save(path string, p *plan.Plan, units quantity.System) error {
	return durable.Replace(path, func(w io.Writer) error { return Write(w, p, units) })
}
