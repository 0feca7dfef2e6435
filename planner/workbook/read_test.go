package workbook

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
	xlsx "example.com/tripwear/profiles/sheet"

	"example.com/tripwear/planner/workbook/form"
)

// fill writes readings into the form by page (0 before leaving), wheel and
// what the row asks for, and gives the workbook's bytes.
func fill(t testing.TB, book []byte, page int, entries map[string]any) []byte {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(book))
	if err != nil {
		t.Fatal(err)
	}
	at, wheel, left := -1, "", len(entries)
	for i, r := range rows(t, f, form.Sheet) {
		if len(r) == 0 {
			continue
		}
		what := ""
		if len(r) > 1 {
			what = r[1]
		}
		if r[0] == "Before leaving" || strings.HasPrefix(r[0], "After leg") {
			at, what = at+1, "date"
		} else if r[0] != "" {
			wheel = r[0]
		}
		if at != page {
			continue
		}
		v, ok := entries[wheel+" "+what]
		if !ok {
			if v, ok = entries[what]; !ok {
				continue
			}
		}
		left--
		if err := f.SetCellValue(form.Sheet, fmt.Sprintf("G%d", i+1), v); err != nil {
			t.Fatal(err)
		}
	}
	if left != 0 {
		t.Fatalf("%d entries found no row", left)
	}
	var out bytes.Buffer
	if err := errors.Join(f.Write(&out), f.Close()); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func read(book []byte) ([]form.Reading, error) {
	return form.ReadFrom(bytes.NewReader(book), int64(len(book)))
}

// filledIn is what the tests write, and homeward what must come back.
var (
	evening  = time.Date(2027, 5, 16, 0, 0, 0, 0, time.UTC)
	filledIn = map[string]any{
		"date": 46523, "odometer": 144308.0, "RF tread, outside": 5.5, "LR pad, thinnest end": 5.9,
		"LF rotor face (life left)": "catches", "RR hub at 12 and 6 (lasts)": "tight",
		"LF rotor thickness": 21.82, "engine oil level, warm": "below full", "brakes water in the fluid": 1.2,
	}
	homeward = []form.Reading{
		{What: "rotor face", Place: "LF", Set: "rotors-front", Value: "catches"},
		{What: "rotor thickness", Place: "LF", Set: "rotors-front", Value: "21.82 mm"},
		{What: "tread", Place: "RF", Zone: "outside", Set: "tires-front", Value: "5.5/32 in"},
		{What: "hub", Place: "RR", Set: "hub-RR", Value: "tight"},
		{What: "pad", Place: "LR", Set: "pads-rear", Value: "5.9 mm"},
		{What: "oil level", Place: "engine", Set: "oil", Value: "below full"},
		{What: "fluid water", Place: "system", Set: "fluid", Value: "1.2 %"},
	}
)

// came compares readings with homeward, and that the logbook takes each.
func came(t *testing.T, got []form.Reading) {
	t.Helper()
	want := make([]form.Reading, len(homeward))
	for i, r := range homeward {
		r.Trip, r.Leg, r.Date, r.Odometer = "spring", 0, evening, "144308 mi"
		want[i] = r
	}
	for i := range got {
		if got[i].Cell == "" {
			t.Errorf("%s %s has no cell", got[i].What, got[i].Place)
		}
		got[i].Cell = ""
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("readings (-want +got)\n%s", d)
	}
	for _, r := range got {
		row := logbook.Row{"date": r.Date.Format(time.DateOnly), "odometer": r.Odometer, "what": r.What, "place": r.Place, "zone": r.Zone, "value": r.Value}
		if _, faults := logbook.Parse(row); len(faults) > 0 {
			t.Errorf("the logbook refuses %+v: %+v", r, faults)
		}
	}
}

func TestReadingsComeBack(t *testing.T) {
	book := fill(t, written(t, juniper(t), quantity.US), 0, filledIn)
	got, err := read(book)
	if err != nil {
		t.Fatal(err)
	}
	came(t, got)

	path := filepath.Join(t.TempDir(), "plan.xlsx")
	if err := os.WriteFile(path, book, 0o644); err != nil {
		t.Fatal(err)
	}
	if again, err := form.Read(path); err != nil || len(again) != len(homeward) {
		t.Errorf("from the file: %d readings, %v", len(again), err)
	}
}

// TestThirtySeconds: a depth is taken as people write it; its cell is a text, so
// that no program takes it for a day.
func TestThirtySeconds(t *testing.T) {
	book := written(t, juniper(t), quantity.US)
	for wrote, want := range map[any]string{5.5: "5.5/32 in", "5.5": "5.5/32 in", "5/32": "5/32 in", " 5.5/32 in": "5.5/32 in"} {
		got, err := read(fill(t, book, 2, map[string]any{"RF tread, outside": wrote}))
		if err != nil || len(got) != 1 || got[0].Value != want || got[0].Leg != 2 {
			t.Errorf("%v: %+v, %v", wrote, got, err)
		}
	}
	f := opened(t, book)
	for i, r := range rows(t, f, form.Sheet) {
		if len(r) < form.Unit || r[form.Unit-1] != "1/32 in" {
			continue
		}
		id, err := f.GetCellStyle(form.Sheet, fmt.Sprintf("G%d", i+1))
		if err != nil {
			t.Fatal(err)
		}
		if style, err := f.GetStyle(id); err != nil || style.CustomNumFmt == nil || *style.CustomNumFmt != asText {
			t.Errorf("row %d is no text: %+v, %v", i+1, style, err)
		}
	}
}

func TestEmptyFormReadsNothing(t *testing.T) {
	got, err := read(written(t, juniper(t), quantity.Metric))
	if err != nil || len(got) != 0 {
		t.Errorf("%v, %v", got, err)
	}
	only := fill(t, written(t, juniper(t), quantity.Metric), 0, map[string]any{"odometer": 230500})
	got, err = read(only)
	if want := []form.Reading{{Trip: "spring", What: "odometer", Odometer: "230500 km"}}; err != nil || !cmp.Equal(want, got) {
		t.Errorf("%+v, %v", got, err)
	}
}

func TestBadCellsAreNamed(t *testing.T) {
	book := written(t, juniper(t), quantity.US)
	for text, entries := range map[string]map[string]any{
		`"5,5" is not a number of 1/32 in`:                 {"RF tread, outside": "5,5"},
		`"-1" is not a number of mm`:                       {"RF pad, thinnest end": -1},
		`"cracked" is none of smooth, checks, catches, ed`: {"LF rotor face (life left)": "cracked"},
		`"tomorrow" is not a date`:                         {"date": "tomorrow"},
		`"12" is not a date`:                               {"date": 12},
	} {
		_, err := read(fill(t, book, 1, entries))
		var bad *form.ReadError
		if !errors.As(err, &bad) || bad.Cell == "" || !strings.HasPrefix(err.Error(), "cell "+bad.Cell+": "+text) || bad.Hint() == "" {
			t.Errorf("%v: error %v", entries, err)
		}
	}
}

// zipped packs parts by name.
func zipped(t testing.TB, parts map[string]string) []byte {
	t.Helper()
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for name, data := range parts {
		w, err := z.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.WriteString(w, data); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestForeignFilesAreRefused(t *testing.T) {
	book := written(t, juniper(t), quantity.US)
	other := excelize.NewFile()
	var plain bytes.Buffer
	if err := other.Write(&plain); err != nil {
		t.Fatal(err)
	}
	if err := other.SetSheetName("Sheet1", form.Sheet); err != nil {
		t.Fatal(err)
	}
	var named bytes.Buffer
	if err := errors.Join(other.Write(&named), other.Close()); err != nil {
		t.Fatal(err)
	}
	bomb := parts(t, book)
	for name := range bomb {
		if strings.HasPrefix(name, "xl/worksheets/sheet") {
			bomb[name] = strings.Replace(bomb[name], "<sheetData>", "<sheetData>"+strings.Repeat(" ", xlsx.MostPart), 1)
		}
	}
	cut := parts(t, book)
	for name := range cut {
		if strings.HasPrefix(name, "xl/worksheets/sheet") {
			cut[name] = cut[name][:len(cut[name])/2]
		}
	}
	mixed := parts(t, book)
	for name, text := range mixed {
		mixed[name] = strings.Replace(text, ">spring<", ">autumn<", 1)
	}
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"nothing":         {nil, "too short"},
		"text":            {[]byte("date,odometer\n"), "not a workbook"},
		"half a workbook": {book[:len(book)/2], "damaged"},
		"old":             {append([]byte("\xd0\xcf\x11\xe0"), make([]byte, 600)...), "password"},
		"a zip":           {zipped(t, map[string]string{"a.txt": "a"}), "not a workbook"},
		"another book":    {plain.Bytes(), "no sheet Readings"},
		"another form":    {named.Bytes(), "not the rows"},
		"a bomb":          {zipped(t, bomb), "unpacks to more"},
		"half a sheet":    {zipped(t, cut), "damaged"},
		"two trips":       {zipped(t, mixed), "two trips"},
	} {
		got, err := read(c.data)
		var refused *form.ReadError
		if !errors.As(err, &refused) || !strings.Contains(err.Error(), c.want) || err.Error() != refused.What || refused.Hint() == "" || got != nil {
			t.Errorf("%s: %d readings, error %v, want %q", name, len(got), err, c.want)
		}
	}
	if _, err := form.ReadFrom(bytes.NewReader(book), math.MaxInt64); err == nil {
		t.Error("a file of any size is read")
	}
	if _, err := form.Read(t.TempDir()); err == nil {
		t.Error("a folder is read")
	}
	if _, err := form.Read(filepath.Join(t.TempDir(), "none.xlsx")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("no file: %v", err)
	}
}

// formOf is a package with nothing but the form's sheet and its texts.
func formOf(sheet, texts string) map[string]string {
	return map[string]string{
		"xl/workbook.xml":            `<workbook><sheets><sheet name="Readings" r:id="a"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": `<Relationships><Relationship Id="a" Target="s.xml"/></Relationships>`,
		"xl/sharedStrings.xml":       texts,
		"xl/s.xml":                   sheet,
	}
}

// FuzzReadMeasurements feeds any bytes: an answer or an error, never a panic,
// and what is read is whole.
func FuzzReadMeasurements(f *testing.F) {
	f.Add(zipped(f, formOf(`<worksheet><sheetData><row r="5"><c r="G5" t="s"><v>0</v></c><c r="L5"><v>1</v></c></row></sheetData></worksheet>`, `<sst><si><t>x</t></si></sst>`)))
	f.Add([]byte("PK\x03\x04"))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := read(data)
		if err != nil && got != nil {
			t.Error("readings and an error")
		}
		for _, r := range got {
			if r.What == "" || r.Leg < 0 || (r.Value == "") != (r.What == "odometer") {
				t.Errorf("%+v", r)
			}
		}
	})
}

// FuzzFormSheet feeds the sheet's and the texts' parts of a sound package.
func FuzzFormSheet(f *testing.F) {
	all := parts(f, fill(f, written(f, juniper(f), quantity.US), 0, filledIn))
	for name, data := range all {
		if strings.HasPrefix(name, "xl/worksheets/sheet") && strings.Contains(data, "rotor face") {
			f.Add(data[:4000], "")
		}
	}
	f.Add(`<worksheet><sheetData><row r="5"><c r="G5" t="s"><v>0</v></c><c r="K5"><v>a</v></c><c r="L5"><v>1</v></c><c r="N5" t="str"><v>level</v></c></row></sheetData></worksheet>`, `<sst><si><r><t>full</t></r><rPh><t>x</t></rPh></si></sst>`)
	f.Fuzz(func(t *testing.T, sheet, texts string) {
		got, err := read(zipped(t, formOf(sheet, texts)))
		if err != nil && got != nil {
			t.Error("readings and an error")
		}
		for _, r := range got {
			if r.What == "" || r.Leg < 0 || (r.Value == "") != (r.What == "odometer") {
				t.Errorf("%+v", r)
			}
		}
	})
}
