package workbook

import (
	"errors"
	"fmt"
	"strings"
	"testing"
)

// levelRow is a row of the form that asks for the oil level, without its
// number and with the text it was filled with.
const levelRow = `<c r="G5" t="s"><v>0</v></c><c r="K5"><v>a</v></c><c r="L5"><v>1</v></c><c r="N5" t="str"><v>level</v></c></row>`

func sheetOf(rows string) string {
	return "<worksheet><sheetData>" + rows + "</sheetData></worksheet>"
}

// TestRowsWithoutNumbers: a row that another program saved without its number
// is the one below the last, so a bad cell is named where it stands.
func TestRowsWithoutNumbers(t *testing.T) {
	const full = "<sst><si><t>full</t></si></sst>"
	for rows, want := range map[string]string{
		"<row>" + levelRow:                                      "G1",
		`<row r="7">` + levelRow:                                "G7",
		`<row r="7"/><row/><row>` + levelRow:                    "G9",
		`<row/><row/><row r="x">` + levelRow + `<row r="9"/>`:   "G3",
		`<row r="20"/><row r="5">` + levelRow + `<row r="30"/>`: "G5",
	} {
		got, err := read(zipped(t, formOf(sheetOf(rows), full)))
		if err != nil || len(got) != 1 || got[0].Value != "full" || got[0].Cell != want {
			t.Errorf("%s: %+v, %v, want the cell %s", rows, got, err, want)
		}
	}
}

// TestKeysOfARow: a row is read by its hidden keys, of page and point; keys that
// tripwear never writes are refused, with the row that has them.
func TestKeysOfARow(t *testing.T) {
	for keys, want := range map[[2]string]string{
		{"0", "level"}:                 "",
		{"10000", "level"}:             "",
		{"10001", "level"}:             "row 7 of the sheet Measurements has keys",
		{"-1", "level"}:                "row 7 of the sheet Measurements has keys",
		{"one", "level"}:               "row 7 of the sheet Measurements has keys",
		{"1", "RR//lining"}:            "cell G7: \"full\" is none of even, taper, indicator, plate",
		{"1", "LF/inside/tread"}:       "cell G7: \"full\" is not a number of",
		{"1", "LF/inside/depth"}:       `row 7 of the sheet Measurements asks for "LF/inside/depth"`,
		{"1", "LF/tread"}:              `asks for "LF/tread"`,
		{"1", "LF/inside/tread/again"}: `asks for "LF/inside/tread/again"`,
		{"1", "XX/inside/tread"}:       `asks for "XX/inside/tread"`,
		{"1", "F/inside/tread"}:        `asks for "F/inside/tread"`,
	} {
		row := strings.NewReplacer("<v>1<", "<v>"+keys[0]+"<", "<v>level<", "<v>"+keys[1]+"<").Replace(`<row r="7">` + levelRow)
		got, err := read(zipped(t, formOf(sheetOf(row), "<sst><si><t>full</t></si></sst>")))
		if want == "" && (err != nil || len(got) != 1) || want != "" && (err == nil || !strings.Contains(err.Error(), want)) {
			t.Errorf("%q: %d readings, %v, want %q", keys, len(got), err, want)
		}
	}
}

// TestTextsThatAreNotThere: a cell that points past the texts is damage, not a
// reading.
func TestTextsThatAreNotThere(t *testing.T) {
	for _, at := range []string{"-1", "1", "x", ""} {
		row := `<row r="7">` + strings.Replace(levelRow, "<v>0<", "<v>"+at+"<", 1)
		if got, err := read(zipped(t, formOf(sheetOf(row), "<sst><si><t>full</t></si></sst>"))); err == nil || !strings.Contains(err.Error(), "damaged: a cell points") {
			t.Errorf("text %q: %d readings, %v", at, len(got), err)
		}
	}
}

// TestTextInPieces: a program may keep a word in pieces, with spaces between
// its elements and a reading aid; the word is what stands in the pieces.
func TestTextInPieces(t *testing.T) {
	const pieces = `<sst> <si> <r><rPr/><t>fu</t></r> <rPh><t>x</t></rPh> <r><t>ll</t></r> <rPh><t>y</t></rPh> </si></sst>`
	got, err := read(zipped(t, formOf(sheetOf(`<row r="7">`+levelRow), pieces)))
	if err != nil || len(got) != 1 || got[0].Value != "full" {
		t.Errorf("%+v, %v", got, err)
	}
}

func TestColumn(t *testing.T) {
	for at, want := range map[string]int{"A1": 1, "G17": 7, "Z9": 26, "AA1": 27, "AZ1": 52, "BA1": 53, "XFD1048576": 16384, "": 0, "7": 0, "a1": 0, "[1": 0, "@1": 0} {
		if got := column(at); got != want {
			t.Errorf("%q is column %d, want %d", at, got, want)
		}
	}
}

// zeros is a file of nothing, as long as one likes.
type zeros struct{}

func (zeros) ReadAt(p []byte, _ int64) (int, error) { clear(p); return len(p), nil }

// TestMostIsStillRead: a workbook that holds just as much as one may is read,
// and refused with a word more, a row, a part or a byte.
func TestMostIsStillRead(t *testing.T) {
	row := `<row r="1">` + levelRow
	note := func(bytes int) map[string]string { // beside the level, in letters of four bytes
		noted := strings.Replace(row, "</row>", `<c r="I5" t="s"><v>1</v></c></row>`, 1)
		return formOf(sheetOf(noted), "<sst><si><t>full</t></si><si><t>"+strings.Repeat("\U0001F6DE", bytes/4)+strings.Repeat("x", bytes%4)+"</t></si></sst>")
	}
	of := func(rows, parts int) map[string]string {
		all := formOf(sheetOf(row+strings.Repeat("<row/>", rows-1)), "<sst><si><t>full</t></si></sst>")
		for len(all) < parts {
			all[fmt.Sprint("p", len(all))] = ""
		}
		return all
	}
	for name, c := range map[string]struct{ most, over map[string]string }{
		"rows":  {of(mostRows, 0), of(mostRows+1, 0)},
		"parts": {of(1, mostParts), of(1, mostParts+1)},
		"text":  {note(4 * mostText), note(4*mostText + 1)},
	} {
		if got, err := read(zipped(t, c.most)); err != nil || len(got) != 1 || got[0].Value != "full" {
			t.Errorf("%s: %d readings, %v", name, len(got), err)
		}
		var refused *ReadError
		if got, err := read(zipped(t, c.over)); !errors.As(err, &refused) || got != nil {
			t.Errorf("more %s: %d readings, %v", name, len(got), err)
		}
	}
	for size, want := range map[int64]string{mostBytes: "not a workbook", mostBytes + 1: "larger than the 32 MB"} {
		if _, err := ReadMeasurementsFrom(zeros{}, size); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%d bytes: %v, want %q", size, err, want)
		}
	}
}
