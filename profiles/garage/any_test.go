package garage

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/profiles"
)

// saying is what a garage says, as the text of a folder's files.
func saying(b *Book) (string, error) {
	folder, err := b.Folder()
	if err != nil {
		return "", err
	}
	var out strings.Builder
	for _, name := range slices.Sorted(maps.Keys(folder)) {
		fmt.Fprintf(&out, "== %s\n%s", name, folder[name].Data)
	}
	return out.String(), nil
}

// edit is a change of one thing in a garage, and what must be named or heard.
type edit struct {
	what string
	make func(f *excelize.File) error
	idle func(f *excelize.File) bool // it changes nothing that is read
}

// typed is what people put into cells.
func typed(r *rand.Rand) any {
	all := []any{
		nil, "", "?", "unknown", "x", "8", "8 mm", "5/32", "7,5", "1e3", "-4", "0", "12:30", "2027-05-16", "16.5.2027", "RF", "rear", "sound", "tire-200",
		"=A1", "n/a", "  spaced  ", "two\nlines", strings.Repeat("long ", 60), "\u202eturned", "ünïcode", "TRUE", "50 %", "3 miles", "heron-flats", "trip", "road",
		0.0, 1.0, -1.5, 7.5, 0.25, 143200.0, 1e12, 1e-9, 45000.5, true, false,
	}
	return all[r.IntN(len(all))]
}

func drawEdit(r *rand.Rand, f *excelize.File) edit {
	sheets := f.GetSheetList()
	name := sheets[r.IntN(len(sheets)-1)] // the last one is of words
	rows, _ := f.GetRows(name)
	width := 1
	for _, row := range rows {
		width = max(width, len(row))
	}
	row, column := 1+r.IntN(len(rows)+2), 1+r.IntN(width+1)
	at := address(column, row)
	switch r.IntN(12) {
	case 0:
		return edit{"row into " + name + at, func(f *excelize.File) error { return f.InsertRows(name, row, 1) }, func(*excelize.File) bool { return row > 1 }}
	case 1:
		return edit{"row out of " + name + at, func(f *excelize.File) error { return f.RemoveRow(name, row) }, func(f *excelize.File) bool {
			return blank(f, name, row) || name == logSheet && row == 2 // its readings have units of their own
		}}
	case 2:
		return edit{"column out of " + name + at, func(f *excelize.File) error { return f.RemoveCol(name, strings.TrimRight(at, "0123456789")) }, func(f *excelize.File) bool {
			head, _ := f.GetCellValue(name, address(column, 1))
			return column > width || bare(f, name, column) || head == numberKey || head == legKey // the rows are in order
		}}
	case 3:
		return edit{"sheet renamed " + name, func(f *excelize.File) error { return f.SetSheetName(name, "Old "+strconv.Itoa(r.IntN(9))) }, func(f *excelize.File) bool { return name == logSheet || name == modelSheet }}
	case 4:
		return edit{"sheet moved " + name, func(f *excelize.File) error { return f.MoveSheet(name, sheets[0]) }, func(*excelize.File) bool { return true }}
	case 5:
		formats := []string{"yyyy-mm-dd", "mmm-yy", "h:mm", "mm:ss.0", "0%", "# ?/?", "@", "0.00"}
		style := formats[r.IntN(len(formats))]
		return edit{"format " + style + " at " + name + at, func(f *excelize.File) error {
			id, err := f.NewStyle(&excelize.Style{CustomNumFmt: &style})
			return errors.Join(err, f.SetCellStyle(name, at, at, id))
		}, func(*excelize.File) bool { return true }}
	}
	value := typed(r)
	if text, ok := value.(string); ok && text == "" {
		value = nil
	}
	return edit{fmt.Sprintf("%.40v (%T) at %s!%s", value, value, name, at), func(f *excelize.File) error { return f.SetCellValue(name, at, value) }, func(f *excelize.File) bool {
		was, _ := f.GetCellValue(name, at, excelize.Options{RawCellValue: true})
		head, _ := f.GetCellValue(name, address(column, 1))
		first, _ := f.GetCellValue(name, address(1, row))
		now := strings.TrimSpace(fmt.Sprint(value))
		switch {
		case value == nil || now == "?":
			return was == "" || row == 2 || plain(head) == unitKey || row == 1 && bare(f, name, column) // a unit that is not needed
		case strings.HasPrefix(plain(head), noteKey), row == 1 && strings.HasPrefix(plain(now), noteKey):
			return name == carSheet || row == 1
		case was == now, row == 2 && name != carSheet, plain(head) == unitKey, plain(first) == unitKey:
			return true
		}
		return strings.EqualFold(was, now)
	}}
}

func blank(f *excelize.File, name string, row int) bool {
	for n := 2; n < 60; n++ {
		if v, _ := f.GetCellValue(name, address(n, row)); v != "" {
			return name == carSheet && n > 2 // a line without a value
		}
	}
	return true
}

func bare(f *excelize.File, name string, column int) bool {
	rows, _ := f.GetRows(name)
	for n := range rows {
		if v, _ := f.GetCellValue(name, address(column, n+1)); n > 1 && v != "" || n == 1 && name == carSheet && v != "" {
			return false
		}
	}
	return true
}

// TestEveryEditIsHeardOrNamed makes random changes, one at a time: none
// panics, and each changes what the garage says or is named with its sheet.
// TRIPWEAR_EDITS=300 for more of them.
func TestEveryEditIsHeardOrNamed(t *testing.T) {
	n := 40
	if s := os.Getenv("TRIPWEAR_EDITS"); s != "" {
		n, _ = strconv.Atoi(s)
	}
	good := demo(t)
	want, err := saying(opened(t, good))
	if err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(21, 7))
	heard, named, idle := 0, 0, 0
	for range n {
		f, err := excelize.OpenReader(bytes.NewReader(good))
		if err != nil {
			t.Fatal(err)
		}
		e := drawEdit(r, f)
		nothing := e.idle(f)
		if err := e.make(f); err != nil {
			t.Fatalf("%s: %v", e.what, err)
		}
		var data bytes.Buffer
		if err := errors.Join(f.Write(&data), f.Close()); err != nil {
			t.Fatal(err)
		}
		b, err := Open(fstest.MapFS{"garage.xlsx": {Data: data.Bytes()}}, "garage.xlsx")
		if err != nil {
			t.Errorf("%s: %v", e.what, err)
			continue
		}
		got, err := saying(b)
		var bad profiles.Errors
		switch {
		case errors.As(err, &bad):
			named++
		case err != nil:
			t.Errorf("%s: %v", e.what, err)
		case got != want || len(b.Unread()) > 0:
			heard++
		case nothing:
			idle++
		default:
			t.Errorf("%s: neither heard nor named", e.what)
		}
	}
	t.Logf("%d edits: heard %d, named %d, of no meaning %d", n, heard, named, idle)
}
