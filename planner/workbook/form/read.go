package form

import (
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.com/tripwear/planner/workbook/expr"
	"example.com/tripwear/profiles/nearest"
	xlsx "example.com/tripwear/profiles/sheet"
)

// Reading is one filled cell of the Readings sheet, in the words and the
// writing of the logbook.
type Reading struct {
	Trip     string    // id of the trip the workbook was made for
	Leg      int       // after which it was taken, counted from 1; 0 is before leaving
	Set      string    // id of the set; "" for the odometer
	What     string    // tread, pad, rotor thickness, rotor face, hub, oil level, oil added, fluid water, odometer
	Place    string    // LF RF LR RR, engine, system; "" for the odometer
	Zone     string    // inside, middle, outside; "" for all but treads
	Date     time.Time // of its page; zero where the page has none
	Odometer string    // of its page with its unit, such as "144210 mi"; "" where the page has none
	Value    string    // as written with its unit, such as "5.9 mm", or a word; "" for the odometer
	Note     string
	Cell     string // such as G17
}

// ReadError says what is wrong with a workbook or one of its cells.
type ReadError struct {
	Cell string // "" for the workbook
	What string
	hint string
}

// Error implements error.
func (e *ReadError) Error() string {
	if e.Cell == "" {
		return e.What
	}
	return "cell " + e.Cell + ": " + e.What
}

// Hint says what to do about it.
func (e *ReadError) Hint() string { return e.hint }

func foreign(what string) error {
	return &ReadError{What: what, hint: "name a workbook that tripwear plan -o wrote, saved as .xlsx"}
}

// Read reads what was filled into the Readings sheet of a workbook that
// tripwear wrote, also after another program saved it. It reads
// inputs only, never a formula. All faults of a sheet come at once, joined.
func Read(path string) ([]Reading, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() { // a pipe is not opened: it would wait for its writer
		return nil, foreign("it is not a file")
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	out, err := ReadFrom(f, info.Size())
	return out, errors.Join(err, f.Close())
}

// ReadFrom reads the same from size bytes.
func ReadFrom(r io.ReaderAt, size int64) ([]Reading, error) {
	rows, err := xlsx.Read(r, size, Sheet)
	if err != nil {
		return nil, foreign(err.Error())
	}
	return readForm(rows)
}

// formPage is one page of the form.
type formPage struct {
	leg      int
	date     time.Time
	odometer string
	readings []Reading
	any      bool
}

// readForm turns the rows of the sheet into readings.
func readForm(rows []xlsx.Row) ([]Reading, error) {
	var out []Reading
	var faults []error
	trip, known := "", false
	page := formPage{leg: -1}
	close := func() {
		if page.any && len(page.readings) == 0 && page.odometer != "" {
			page.readings = append(page.readings, Reading{Trip: trip, Leg: page.leg, What: "odometer"})
		}
		for _, r := range page.readings {
			r.Date, r.Odometer = page.date, page.odometer
			out = append(out, r)
		}
	}
	for _, row := range rows {
		key := row.Text(FirstKey + keyPoint)
		if key == "" || row.Text(FirstKey+keyLeg) == "" {
			continue
		}
		leg, err := strconv.Atoi(row.Text(FirstKey + keyLeg))
		if err != nil || leg < 0 || leg > mostLegs {
			return nil, foreign(fmt.Sprintf("row %d of the sheet %s has keys that tripwear did not write", row.Number, Sheet))
		}
		if known && row.Text(FirstKey+keyTrip) != trip {
			return nil, foreign("the sheet " + Sheet + " holds rows of two trips")
		}
		trip, known = row.Text(FirstKey+keyTrip), true
		if leg != page.leg {
			close()
			page = formPage{leg: leg}
		}
		if err := page.take(trip, key, row); err != nil {
			faults = append(faults, err)
		}
	}
	close()
	if !known {
		return nil, foreign("its sheet " + Sheet + " has not the rows that tripwear writes")
	}
	if len(faults) > 0 {
		return nil, errors.Join(faults...)
	}
	return out, nil
}

// mostLegs is more than any trip has.
const mostLegs = 10_000

// take reads a row into the page.
func (p *formPage) take(trip, key string, row xlsx.Row) error {
	at := fmt.Sprintf("G%d", row.Number)
	got := strings.TrimSpace(row.Text(Measured))
	if got == "" {
		return nil
	}
	p.any = true
	unit := row.Text(FirstKey + keyUnit)
	fault := func(format string, a ...any) error {
		return &ReadError{Cell: at, What: fmt.Sprintf(format, a...), hint: "put the cell right in the workbook and save it"}
	}
	amount := func() (string, error) {
		v, err := figure(inUnit(got, unit))
		if err != nil {
			return "", fault("%q is not a number of %s", nearest.Cut(got), unit)
		}
		return withUnit(v, unit), nil
	}
	var err error
	switch key {
	case "date":
		if p.date, err = serial(got); err != nil {
			return fault("%q is not a date", nearest.Cut(got))
		}
		return nil
	case "odometer":
		p.odometer, err = amount()
		return err
	}
	a, zone, ok := askOf(key)
	if !ok {
		return foreign(fmt.Sprintf("row %d of the sheet %s asks for %q, which tripwear does not know", row.Number, Sheet, nearest.Cut(key)))
	}
	r := Reading{
		Trip: trip, Leg: p.leg, Set: row.Text(FirstKey + keySet), What: string(a.Reading), Place: a.Place, Zone: zone,
		Note: strings.TrimSpace(row.Text(Note)), Cell: at,
	}
	if words := a.Words(); words == nil {
		r.Value, err = amount()
	} else if i := slices.IndexFunc(words, func(w string) bool { return strings.EqualFold(got, w) }); i >= 0 {
		r.Value = words[i]
	} else {
		err = fault("%q is none of %s", nearest.Cut(got), strings.Join(words, ", "))
	}
	if err == nil {
		p.readings = append(p.readings, r)
	}
	return err
}

// inUnit leaves off thirty-seconds that were written with their unit.
func inUnit(got, unit string) string {
	if unit == "1/32 in" {
		got = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(strings.TrimSuffix(got, "in")), "/32"))
	}
	return got
}

// withUnit is a figure as the logbook writes it: treads in thirty-seconds of an
// inch are 5.5/32 in.
func withUnit(v float64, unit string) string {
	n := strconv.FormatFloat(v, 'f', -1, 64)
	if rest, ok := strings.CutPrefix(unit, "1/"); ok {
		return n + "/" + rest
	}
	return n + " " + unit
}

// figure reads a number that is not negative.
func figure(s string) (float64, error) {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsNaN(v) || v < 0 || v > NoMore {
		return 0, errors.New("no figure")
	}
	return expr.Tidy(v), nil
}

// serial reads a day as spreadsheets count them, from 1 January 2000 to 2199,
// or as YYYY-MM-DD where a program kept it as text.
func serial(s string) (time.Time, error) {
	if t, err := time.Parse(time.DateOnly, s); err == nil {
		return t, nil
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || !(v >= FirstDay && v <= LastDay) {
		return time.Time{}, errors.New("no date")
	}
	return time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, int(v)-FirstDay), nil
}
