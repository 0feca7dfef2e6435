package workbook

import (
	"errors"
	"fmt"
	"io"
	"time"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// errEmpty is a plan without a leg or a set.
var errEmpty = errors.New("workbook: the plan has no legs or no sets")

// book is what all sheets are laid out from.
type book struct {
	p      *planner.Plan
	u      units
	driven []int // legs that wear something: roads and circuit days
}

// Write writes the plan as an .xlsx workbook, in US or metric units. The same
// plan gives the same bytes: the document's times are the departure.
func Write(w io.Writer, p *planner.Plan, system quantity.System) (err error) {
	if len(p.Legs) == 0 || len(p.Sets) == 0 {
		return errEmpty
	}
	b := &book{p: p, u: unitsOf(system)}
	for j, l := range p.Legs {
		if l.Kind != profiles.StopLeg {
			b.driven = append(b.driven, j)
		}
	}
	f := excelize.NewFile()
	defer func() { err = errors.Join(err, f.Close()) }()
	if err := b.properties(f); err != nil {
		return err
	}
	pg := page{size: a4, left: p.Trip, right: b.leaves(), below: p.Car + ": planning estimate, inspect before every session"}
	if system == quantity.US {
		pg.size = letter
	}
	st := newStyles(f)
	for i, s := range b.sheets() {
		if i == 0 {
			err = f.SetSheetName("Sheet1", s.name)
		} else {
			_, err = f.NewSheet(s.name)
		}
		if err != nil {
			return err
		}
		if err := s.flush(f, st, pg); err != nil {
			return fmt.Errorf("sheet %s: %w", s.name, err)
		}
	}
	return pack(w, f)
}

// sheets lays out every sheet, in the order of the workbook.
func (b *book) sheets() []*sheet {
	return []*sheet{
		b.summary(), b.legs(), b.wear(), b.tires(), b.brakes(), b.oilAndBearings(),
		b.decisions(), b.shopping(), b.packing(), b.measurements(), b.assumptions(),
	}
}

// undated stands for a departure that the trip does not give; the format wants a time.
var undated = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

func (b *book) properties(f *excelize.File) error {
	at := b.p.Depart
	if at.IsZero() {
		at = undated
	}
	stamp := at.UTC().Format(time.RFC3339)
	if err := f.SetDocProps(&excelize.DocProperties{
		Title:    text(look{}, b.p.Car+": "+b.p.Trip).value.(string),
		Subject:  "What lasts the trip, what to renew, carry and measure",
		Creator:  "tripwear",
		Keywords: text(look{}, b.p.TripID).value.(string),
		Created:  stamp, Modified: stamp, LastModifiedBy: "tripwear", Language: "en",
	}); err != nil {
		return err
	}
	if err := f.SetAppProps(&excelize.AppProperties{Application: "tripwear"}); err != nil {
		return err
	}
	return f.SetDefaultFont(face)
}

// leaves is the departure in words.
func (b *book) leaves() string {
	if b.p.Depart.IsZero() {
		return "no date set"
	}
	return "leaves " + b.p.Depart.Format("2 Jan 2006")
}

// legName is a leg's number and name.
func (b *book) legName(j int) string { return fmt.Sprintf("%d  %s", j+1, b.p.Legs[j].Name) }

// legLabel is the same, short enough for a chart's axis.
func (b *book) legLabel(j int) string {
	r := []rune(b.p.Legs[j].Name)
	const room = 26
	if len(r) > room {
		r = append(r[:room-1], '…')
	}
	return fmt.Sprintf("%d %s", j+1, string(r))
}

// band prints a 5-95 % band in a unit.
func band(u unit, b planner.Band) string {
	digits := 0
	scale := 1.0
	switch u.format {
	case asTenth:
		digits = 1
	case asHundred:
		digits = 2
	case asShare, asChance:
		scale = 100
	}
	lo, hi := u.of(b.P5), u.of(b.P95)
	if !finite(lo) || !finite(hi) {
		return "–"
	}
	return fmt.Sprintf("%.*f – %.*f", digits, lo*scale, digits, hi*scale)
}
