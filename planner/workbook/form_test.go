package workbook

import (
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
		{"10001", "level"}:             "row 7 of the sheet Readings has keys",
		{"-1", "level"}:                "row 7 of the sheet Readings has keys",
		{"one", "level"}:               "row 7 of the sheet Readings has keys",
		{"1", "colour"}:                "cell G7: \"full\" is none of clear, amber, dark", // the key of every workbook so far
		{"1", "RR//lining"}:            "cell G7: \"full\" is none of even, taper, indicator, plate",
		{"1", "LF/inside/tread"}:       "cell G7: \"full\" is not a number of",
		{"1", "LF/inside/depth"}:       `row 7 of the sheet Readings asks for "LF/inside/depth"`,
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
