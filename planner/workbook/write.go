package workbook

import (
	"errors"
	"fmt"
	"io"
	"sync"
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

	trip, car, shop, boot *sheet // that hold the inputs
	use                   []usage
	wear                  []*wearing
	shown                 map[*wearing][]ref // level cells on the sheets of the parts: the start, then after each driven leg
	totals                struct{ distance, fuel, tanks ref }
	fits                  bootRoom
}

func newBook(p *planner.Plan, system quantity.System) *book {
	b := &book{
		p: p, u: unitsOf(system), use: make([]usage, len(p.Legs)), shown: map[*wearing][]ref{},
		trip: &sheet{name: "Legs", wide: true, side: 3, widths: legWidths},
		car:  &sheet{name: "Car", wide: true, side: 2, widths: carWidths},
		shop: &sheet{name: "Shopping list", widths: shopWidths},
		boot: &sheet{name: "Packing", widths: bootWidths},
	}
	for j, l := range p.Legs {
		if l.Kind != profiles.StopLeg {
			b.driven = append(b.driven, j)
		}
	}
	return b
}

// Write writes the plan as an .xlsx workbook, in US or metric units. The same
// plan gives the same bytes: the document's times are the departure.
func Write(w io.Writer, p *planner.Plan, system quantity.System) (err error) {
	if len(p.Legs) == 0 || len(p.Sets) == 0 {
		return errEmpty
	}
	b := newBook(p, system)
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
	sheets := b.sheets()
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
	for _, s := range sheets {
		if s.hidden { // while all are empty: the library reads every sheet for it
			if err := f.SetSheetVisible(s.name, false); err != nil {
				return err
			}
		}
	}
	streams := make([]*excelize.StreamWriter, len(sheets))
	for i, s := range sheets {
		if streams[i], err = s.begin(f, st, pg); err != nil {
			return fmt.Errorf("sheet %s: %w", s.name, err)
		}
	}
	errs := make([]error, len(sheets))
	var all sync.WaitGroup
	for i, s := range sheets {
		all.Go(func() { errs[i] = s.stream(streams[i], st) })
	}
	all.Wait()
	for i, err := range errs {
		if err != nil {
			return fmt.Errorf("sheet %s: %w", sheets[i].name, err)
		}
	}
	full := true
	if err := f.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: &full}); err != nil {
		return err
	}
	if err := b.defineNames(f); err != nil {
		return err
	}
	return pack(w, f)
}

// defineNames names the cells that an owner may want to point to.
func (b *book) defineNames(f *excelize.File) error {
	for _, n := range []struct {
		name string
		at   ref
	}{
		{"inputs_changed_legs", b.trip.hiddenAt(0, 1, 0)}, {"inputs_changed_car", b.car.hiddenAt(0, 1, 0)},
		{"trip_distance", b.totals.distance}, {"trip_fuel", b.totals.fuel}, {"trip_tanks", b.totals.tanks},
		{"still_to_pay", b.fits.pay}, {"boot_volume_left", b.fits.volume}, {"boot_payload_left", b.fits.mass},
	} {
		if n.at.sheet == "" {
			continue // nothing to buy
		}
		if err := f.SetDefinedName(&excelize.DefinedName{Name: n.name, RefersTo: n.at.in(nil)}); err != nil {
			return err
		}
	}
	return nil
}

// sheets lays out every sheet, what others point to first, and gives them in
// the order of the workbook.
func (b *book) sheets() []*sheet {
	b.list()
	b.legs()
	rates := b.rates()
	for _, w := range b.wear {
		b.trace(w)
	}
	b.condition()
	tires, brakes, oil, wear := b.tires(), b.brakes(), b.oilAndBearings(), b.matrix()
	b.shopping()
	b.packing()
	out := []*sheet{b.summary(), b.trip, b.car, wear, tires, brakes, oil}
	if len(b.p.Circuits) > 0 {
		out = append(out, b.circuits())
	}
	return append(out, b.decisions(), b.shop, b.boot, b.measurements(), rates, b.assumptions(), b.workings())
}

// Where the flags of changed inputs stand: how many inputs are not as planned.
func (b *book) changed() string { return b.flag(b.trip) + "+" + b.flag(b.car) }
func (b *book) spent() string   { return b.flag(b.shop) + "+" + b.flag(b.boot) }

func (b *book) flag(s *sheet) string { return s.hiddenAt(0, 1, 0).in(nil) }

// Messages of changed inputs.
const (
	minutesChanged = "MINUTES CHANGED: "
	minutesMessage = minutesChanged + "pads and rotors heat otherwise in longer or shorter sessions; theirs and what is \"as planned\" are struck out. Plan the changed trip with tripwear."
	inputsMessage  = "INPUTS CHANGED: figures marked \"as planned\" are struck out and no longer hold. Plan the changed trip with tripwear."
	choiceMessage  = "INPUTS CHANGED: what is struck out was decided for the plan as it was. Plan the changed trip with tripwear."
)

// heat is where changed lengths of sessions are counted.
func (b *book) heat() string { return b.trip.hiddenAt(1, 1, 0).in(nil) }

// warn tells on a sheet that wear inputs have changed.
func (b *book) warn(s *sheet) {
	s.warn(whenever(b.heat(), minutesMessage, whenever(b.changed(), inputsMessage, `""`)))
}

// warnAll tells the same of any input, prices and room included.
func (b *book) warnAll(s *sheet) {
	s.warn(whenever(b.heat(), minutesMessage, whenever(b.changed()+"+"+b.spent(), choiceMessage, `""`)))
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
