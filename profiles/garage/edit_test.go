package garage

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"example.com/tripwear/profiles"
)

// demo is the juniper demo as a garage, with a row of the logbook.
func demo(t testing.TB) []byte {
	t.Helper()
	files, err := profiles.Demo("juniper")
	if err != nil {
		t.Fatal(err)
	}
	return edited(t, packed(t, files), func(f *excelize.File) {
		row := []any{"2027-05-10", "143300 mi", "pad", "RF", nil, "6.5 mm"}
		set(t, f, "Logbook!A3", row...)
	})
}

// edited is a workbook that a program opened, changed and saved.
func edited(t testing.TB, data []byte, change func(*excelize.File)) []byte {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	change(f)
	var out bytes.Buffer
	if err := f.Write(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// set fills cells from one on to the right.
func set(t testing.TB, f *excelize.File, where string, values ...any) {
	t.Helper()
	name, cell, _ := strings.Cut(where, "!")
	cell = at(t, f, name, cell)
	if err := f.SetSheetRow(name, cell, &values); err != nil {
		t.Fatal(err)
	}
}

// at is the name of a cell that is given by its column's heading: [pad]7.
func at(t testing.TB, f *excelize.File, name, cell string) string {
	t.Helper()
	title, row, ok := strings.Cut(strings.TrimPrefix(cell, "["), "]")
	if !ok {
		return cell
	}
	for n := 1; n < 100; n++ {
		if got, err := f.GetCellValue(name, address(n, 1)); err == nil && plain(got) == title {
			return strings.TrimRight(address(n, 1), "1") + row
		}
	}
	t.Fatalf("%s has no heading %s", name, title)
	return ""
}

// shown gives a cell a number in a format.
func shown(t testing.TB, f *excelize.File, where, format string, value any) {
	t.Helper()
	name, cell, _ := strings.Cut(where, "!")
	cell = at(t, f, name, cell)
	style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &format})
	if err == nil {
		err = errors.Join(f.SetCellValue(name, cell, value), f.SetCellStyle(name, cell, cell, style))
	}
	if err != nil {
		t.Fatal(err)
	}
}

// told is what a workbook is refused with, line by line.
func told(t testing.TB, data []byte) string {
	t.Helper()
	b := opened(t, data)
	_, err := profiles.Load(b)
	var bad profiles.Errors
	if err != nil && !errors.As(err, &bad) {
		t.Fatal(err)
	}
	var out []string
	for _, e := range bad {
		line := strings.TrimPrefix(e.Error(), "garage.xlsx: ")
		if e.Hint != "" {
			line += " | " + e.Hint
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n")
}

// TestCellsAreNamed: what is wrong is said at its cell, in the words of the
// files, and all at once.
func TestCellsAreNamed(t *testing.T) {
	good := demo(t)
	if got := told(t, good); got != "" {
		t.Fatal(got)
	}
	for _, c := range []struct {
		name string
		edit func(f *excelize.File)
		want string
	}{
		{"two at once", func(f *excelize.File) {
			set(t, f, "Car!B3", "143,200")
			set(t, f, "Trips!C4", "rode")
		}, `Car!B3: odometer: "143,200" has a comma or underscore in its number, expected a decimal point and no separators: write 143200 mi or 143200 km or 143.200 mi or 143.200 km
Trips!C4: unknown kind "rode", expected trip, road, circuit or stop`},
		{"a date for a fraction", func(f *excelize.File) { shown(t, f, "Fitted![tread inside]3", "mmm-yy", 11810) },
			`Fitted!I3: tread inside: a day, 1932-05-01, or was it 5/32?, expected a length in mi, km, m, cm, mm, in or ft | the program took what was typed for a date: format the cell as text and type it again`},
		{"beyond its range", func(f *excelize.File) { set(t, f, "Fitted![pad]7", "8 m") },
			`Fitted!L7: pad.LF: 8 m is out of range, expected 0 m to 0.04 m`},
		{"a part that is none", func(f *excelize.File) { set(t, f, "Shelf!A3", "pads-frnt") },
			`Shelf!A3: unknown part "pads-frnt" (did you mean "pads-front"?), expected an id of parts.yaml or a stock part | parts.yaml has fluid, hub-front, hub-rear, oil, pads-front, pads-rear, rotors-front, rotors-rear, tires-front or tires-rear`},
		{"a row without a part", func(f *excelize.File) { set(t, f, "Fitted!A3", nil) }, `Fitted!A3: key "fitted[0].part" is missing, expected text`},
		{"a missing line", func(f *excelize.File) { set(t, f, "Car!B4", nil) }, `Car!A1: key "mass" is missing, expected a mass in kg, lb, g or t`},
		{"a heading", func(f *excelize.File) { set(t, f, "Shelf!B1", "how many") },
			`Shelf!B1: unknown heading "how many", expected part or quantity | begin the heading of a column of your own with note
Shelf!A3: key "shelf[0].quantity" is missing, expected a plain number
Shelf!A4: key "shelf[1].quantity" is missing, expected a plain number`},
		{"a stray", func(f *excelize.File) { set(t, f, "Shelf!F9", "spare keys") },
			`Shelf!F9: "spare keys" stands under no heading, expected a heading in the first row | begin the heading of a column of your own with note`},
		{"a leg in between", func(f *excelize.File) { set(t, f, "Trips!B7", 5) }, `Trips!A7: leg 5 of spring follows 3, expected 4 | is a row missing?
Trips!B8: leg 5 of spring is there twice, expected each once`},
		{"a leg twice", func(f *excelize.File) { set(t, f, "Trips!B7", 3) }, `Trips!B7: leg 3 of spring is there twice, expected each once
Trips!A8: leg 5 of spring follows 3, expected 4 | is a row missing?`},
		{"a logbook's row", func(f *excelize.File) { set(t, f, "Logbook!F3", 9.5) },
			`Logbook!F3: value: 9.5 has no unit: write 9.5 mm`},
		{"a reading beyond new", func(f *excelize.File) { set(t, f, "Logbook!F3", "35 mm") },
			`Logbook!A3: pad at RF is 35 mm, more than new, expected at most 11.00 mm (13.9/32 in) | correct it; if it is right, write yes in the column confirmed of this row`},
		{"an error", func(f *excelize.File) { set(t, f, "Car!B4", "#N/A") }, `Car!B4: mass: "#N/A" is not a number, expected a mass in kg, lb, g or t`},
		{"a formula without its result", func(f *excelize.File) {
			set(t, f, "Car!B4", nil)
			if err := f.SetCellFormula("Car", "B4", "1300+85"); err != nil {
				t.Fatal(err)
			}
		}, `Car!B4: mass: a formula without its result, expected a value | open the workbook in a spreadsheet program and save it: formulas are not worked out here`},
		{"merged", func(f *excelize.File) {
			if err := f.MergeCell("Shelf", "A3", "B3"); err != nil {
				t.Fatal(err)
			}
		}, `Shelf!A3: cells are merged: A3:B3, expected each value in a cell of its own | take the cells apart
Shelf!A3: key "shelf[0].quantity" is missing, expected a plain number`},
		{"hidden", func(f *excelize.File) {
			if err := f.SetSheetVisible("Shelf", false); err != nil {
				t.Fatal(err)
			}
		}, `Shelf: the sheet is hidden, expected a sheet that one sees | show it: what it says would be planned with`},
		{"renamed", func(f *excelize.File) {
			if err := f.SetSheetName("Parts", "My bits"); err != nil {
				t.Fatal(err)
			}
		}, `My bits: the sheet has the headings of Parts, which is missing, expected the name Parts | rename the sheet`},
		{"no sheet", func(f *excelize.File) {
			if err := f.DeleteSheet("Shelf"); err != nil {
				t.Fatal(err)
			}
		}, ""},
	} {
		got := told(t, edited(t, good, c.edit))
		if c.name == "renamed" { // and all that names its parts
			got, _, _ = strings.Cut(got[strings.Index(got, "My bits"):], "\n")
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s (- wanted, + got):\n%s", c.name, diff)
		}
	}
}

// TestValuesAsPeopleLeaveThem: one figure in the many ways that a cell may have it.
func TestValuesAsPeopleLeaveThem(t *testing.T) {
	good := demo(t)
	want := loaded(t, opened(t, good))
	for name, edit := range map[string]func(f *excelize.File){
		"a unit in the cell":      func(f *excelize.File) { set(t, f, "Car!B3", "143200 mi", nil) },
		"one that wins":           func(f *excelize.File) { set(t, f, "Car!B3", "143200 miles", "km") },
		"a number as text":        func(f *excelize.File) { set(t, f, "Car!B3", " 143200 ") },
		"a formula":               func(f *excelize.File) { result(t, f, "Car", "B3", "143000+200", 143200.0) },
		"a share":                 func(f *excelize.File) { shown(t, f, "Car!B5", "0%", 0.53) },
		"noise in the last digit": func(f *excelize.File) { set(t, f, "Fitted![tread inside]3", 7.5000000000000009) },
		"a fraction of an inch":   func(f *excelize.File) { set(t, f, "Fitted![tread inside]3", "7.5/32") },
		"a fraction in full":      func(f *excelize.File) { set(t, f, "Fitted![tread inside]3", `7.5/32"`) },
		"a fraction worked out": func(f *excelize.File) {
			result(t, f, "Fitted", at(t, f, "Fitted", "[tread inside]3"), "7.5/32", 7.5/32)
		},
		"a fraction made a number": func(f *excelize.File) { shown(t, f, "Fitted![tread inside]3", "# ??/??", 7.5/32) },
		"a day as text":            func(f *excelize.File) { set(t, f, "Fitted![since date]3", "2026-09-12") },
		"a day without its look":   func(f *excelize.File) { shown(t, f, "Fitted![since date]3", "0", 46277) },
		"a day and an hour":        func(f *excelize.File) { shown(t, f, "Fitted![since date]3", "d/m/yy h:mm", 46277.5) },
		"a lap made hours":         func(f *excelize.File) { shown(t, f, "Circuits!D4", "h:mm", 145.0/60/24) },
		"a lap made seconds":       func(f *excelize.File) { shown(t, f, "Circuits!D4", "mm:ss", 145.0/86400) },
		"a lap in seconds":         func(f *excelize.File) { set(t, f, "Circuits!D4", "145 s") },
		"a question mark":          func(f *excelize.File) { set(t, f, "Fitted![water]3", "?") },
		"other places":             func(f *excelize.File) { set(t, f, "Fitted!B3", "left front") },
		"another column order": func(f *excelize.File) {
			inside, outside := at(t, f, "Fitted", "[tread inside]1"), at(t, f, "Fitted", "[tread outside]1")
			set(t, f, "Fitted!"+inside, "tread outside")
			set(t, f, "Fitted!"+outside, "tread inside")
			for _, row := range []string{"3", "4", "5", "6"} {
				a, b := strings.TrimRight(inside, "1")+row, strings.TrimRight(outside, "1")+row
				x, _ := f.GetCellValue("Fitted", a)
				y, _ := f.GetCellValue("Fitted", b)
				set(t, f, "Fitted!"+a, y)
				set(t, f, "Fitted!"+b, x)
			}
		},
		"a row between": func(f *excelize.File) {
			if err := errors.Join(f.InsertRows("Fitted", 5, 2), f.InsertRows("Car", 2, 1)); err != nil {
				t.Fatal(err)
			}
		},
		"notes of one's own": func(f *excelize.File) { set(t, f, "Fitted!AZ1", "Notes"); set(t, f, "Fitted!AZ3", "a gift") },
		"legs sorted":        func(f *excelize.File) { swap(t, f, "Trips", 5, 8) },
	} {
		got := loaded(t, opened(t, edited(t, good, edit)))
		if a, b := figures(want), figures(got); a != b {
			t.Errorf("%s:\n%s", name, cmp.Diff(strings.Split(a, "\n"), strings.Split(b, "\n")))
		}
	}
}

// result gives a cell a formula with its last result.
func result(t testing.TB, f *excelize.File, name, cell, formula string, value float64) {
	t.Helper()
	if err := errors.Join(f.SetCellValue(name, cell, value), f.SetCellFormula(name, cell, formula)); err != nil {
		t.Fatal(err)
	}
	if v, err := f.GetCellValue(name, cell); err != nil || v == "" {
		t.Fatal("the library kept no result beside the formula")
	}
}

// swap changes two rows for each other.
func swap(t testing.TB, f *excelize.File, name string, a, b int) {
	t.Helper()
	for column := 1; column < 24; column++ {
		x, errX := f.GetCellValue(name, address(column, a), excelize.Options{RawCellValue: true})
		y, errY := f.GetCellValue(name, address(column, b), excelize.Options{RawCellValue: true})
		if err := errors.Join(errX, errY, f.SetCellStr(name, address(column, a), y), f.SetCellStr(name, address(column, b), x)); err != nil {
			t.Fatal(err)
		}
	}
}
