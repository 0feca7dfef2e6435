package sheet

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// packed is a package of parts.
func packed(t testing.TB, parts map[string]string) []byte {
	t.Helper()
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for name, data := range parts {
		w, err := z.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := w.Write([]byte(data)); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// formOf is a package with nothing but the sheet Form and its texts, as ISO/IEC
// 29500-1, 18.3 and 18.4, has them.
func formOf(rows, texts string) map[string]string {
	return map[string]string{
		"xl/workbook.xml":            `<workbook><sheets><sheet name="Other" sheetId="1" r:id="b"/><sheet name="Form" sheetId="2" r:id="a"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": `<Relationships><Relationship Id="b" Target="o.xml"/><Relationship Id="a" Target="s.xml"/></Relationships>`,
		"xl/sharedStrings.xml":       "<sst>" + texts + "</sst>",
		"xl/s.xml":                   "<worksheet><sheetData>" + rows + "</sheetData></worksheet>",
	}
}

func readForm(data []byte) ([]Row, error) {
	return Read(bytes.NewReader(data), int64(len(data)), "Form")
}

const full = `<c r="B1" t="s"><v>0</v></c>`

// TestCells: each kind of cell as it is stored. A text may stand in pieces, with
// a reading aid beside it that is none of it; an error or a yes is no figure.
func TestCells(t *testing.T) {
	rows := `<row r="3"><c r="A3" t="s"><v> 0 </v></c><c r="B3"><v>5.5</v></c><c r="C3" t="str"><f>"x"</f><v>x</v></c><c r="D3" t="inlineStr"><is><r><t>y</t></r><r><t>z</t></r></is></c><c r="E3" t="e"><v>#N/A</v></c><c r="F3" t="b"><v>1</v></c><c r="G3"/><c><v>7</v></c></row>`
	pieces := `<si> <r><rPr/><t>fu</t></r> <rPh><t>x</t></rPh> <r><t>ll</t></r> <rPh><t>y</t></rPh> </si>`
	got, err := readForm(packed(t, formOf(rows, pieces)))
	if diff := cmp.Diff([]Row{{3, map[int]Cell{1: {Text: "full", Form: Text}, 2: {Text: "5.5"}, 3: {Text: "x", Form: Text, Formula: `="x"`}, 4: {Text: "yz", Form: Text}, 5: {Text: "#N/A", Form: Wrong}, 6: {Text: "true", Form: Truth}}}}, got); err != nil || diff != "" {
		t.Errorf("%v, %s", err, diff)
	}
	away := formOf("<row>"+full+"</row>", "<si><t>full</t></si>")
	away["deep/S.XML"], away["xl/s.xml"] = away["xl/s.xml"], "<worksheet/>"
	away["xl/_rels/workbook.xml.rels"] = `<Relationships><Relationship Id="a" Target="/deep/s.xml"/></Relationships>`
	if got, err = readForm(packed(t, away)); err != nil || len(got) != 1 {
		t.Errorf("a sheet elsewhere in the package: %v, %v", got, err)
	}
	delete(away, "xl/sharedStrings.xml")
	away["deep/S.XML"] = `<worksheet><row><c r="A1"><v>1</v></c></row></worksheet>`
	if got, err = readForm(packed(t, away)); err != nil || got[0].Text(1) != "1" {
		t.Errorf("without texts: %v, %v", got, err)
	}
}

// TestRowsWithoutNumbers: a row that another program saved without its number
// is the one below the last.
func TestRowsWithoutNumbers(t *testing.T) {
	for rows, want := range map[string]int{
		"<row>" + full + "</row>":                                    1,
		`<row r="7">` + full + "</row>":                              7,
		`<row r="7"/><row/><row>` + full + "</row>":                  9,
		`<row/><row/><row r="x">` + full + `</row><row r="9"/>`:      3,
		`<row r="20"/><row r="5">` + full + `</row><row r="30"/>`:    5,
		`<c r="B9"><v>8</v></c><row r="2">` + full + `</row><other>`: 0,
	} {
		got, err := readForm(packed(t, formOf(rows, "<si><t>full</t></si>")))
		at := 0
		for _, r := range got {
			if r.Text(2) == "full" {
				at = r.Number
			}
		}
		if at != want || (err != nil) != (want == 0) {
			t.Errorf("%s: row %d, %v, want %d", rows, at, err, want)
		}
	}
}

func TestColumn(t *testing.T) {
	for at, want := range map[string]int{"A1": 1, "G17": 7, "Z9": 26, "AA1": 27, "AZ1": 52, "BA1": 53, "XFD1048576": 16384, "": 0, "7": 0, "a1": 0, "[1": 0, "@1": 0} {
		if got := Column(at); got != want {
			t.Errorf("%q is column %d, want %d", at, got, want)
		}
	}
}

// TestHostile: what is no such workbook, is damaged or made to hurt is refused
// with what is wrong with it.
func TestHostile(t *testing.T) {
	good := formOf("<row>"+full+"</row>", "<si><t>full</t></si>")
	with := func(name, part string) []byte {
		parts := map[string]string{}
		for n, p := range good {
			parts[n] = p
		}
		if parts[name] = part; part == "" {
			delete(parts, name)
		}
		return packed(t, parts)
	}
	book := packed(t, good)
	// the central directory (APPNOTE.TXT 4.3.12) says of s.xml that it unpacks to a byte
	lying := with("xl/s.xml", good["xl/s.xml"]+strings.Repeat(" ", MostPart))
	for at := 0; ; at++ {
		next := bytes.Index(lying[at:], []byte("PK\x01\x02"))
		if next < 0 {
			break
		}
		if at += next; bytes.HasPrefix(lying[at+46:], []byte("xl/s.xml")) {
			binary.LittleEndian.PutUint32(lying[at+24:], 1)
		}
	}
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"nothing":         {nil, "too short"},
		"text":            {[]byte("date,odometer\n"), "not a workbook"},
		"half a package":  {book[:len(book)/2], "damaged"},
		"old":             {append([]byte("\xd0\xcf\x11\xe0"), make([]byte, 600)...), "password"},
		"a zip":           {packed(t, map[string]string{"a.txt": "a"}), "of the .xlsx kind"},
		"another book":    {with("xl/workbook.xml", `<workbook><sheet name="Other" id="a"/></workbook>`), "no sheet Form"},
		"no sheet part":   {with("xl/s.xml", ""), "the sheet Form is missing"},
		"no relations":    {with("xl/_rels/workbook.xml.rels", ""), "damaged"},
		"half a book":     {with("xl/workbook.xml", `<workbook><sheet na`), "damaged"},
		"half a sheet":    {with("xl/s.xml", `<worksheet><row><c r="A1"><v>1`), "damaged"},
		"half the texts":  {with("xl/sharedStrings.xml", `<sst><si><t>full`), "damaged"},
		"text -1":         {with("xl/s.xml", `<a><row><c t="s"><v>-1</v></c></row></a>`), "damaged: a cell points"},
		"text 1":          {with("xl/s.xml", `<a><row><c t="s"><v>1</v></c></row></a>`), "damaged: a cell points"},
		"text x":          {with("xl/s.xml", `<a><row><c t="s"><v>x</v></c></row></a>`), "damaged: a cell points"},
		"no text":         {with("xl/s.xml", `<a><row><c t="s"/></row></a>`), "damaged: a cell points"},
		"a bomb":          {with("xl/s.xml", good["xl/s.xml"]+strings.Repeat(" ", MostPart)), "unpacks to more than 16 MB"},
		"a bomb of texts": {with("xl/sharedStrings.xml", "<sst>"+strings.Repeat(" ", MostPart)), "unpacks to more than 16 MB"},
		"a lying bomb":    {lying, "damaged"},
	} {
		got, err := readForm(c.data)
		var refused *Error
		if !errors.As(err, &refused) || !strings.Contains(err.Error(), c.want) || got != nil {
			t.Errorf("%s: %d rows, error %v, want %q", name, len(got), err, c.want)
		}
	}
}

// zeros is a file of nothing, as long as one likes.
type zeros struct{}

func (zeros) ReadAt(p []byte, _ int64) (int, error) { clear(p); return len(p), nil }

// TestMostIsStillRead: a workbook that holds just as much as one may is read,
// and refused with a byte of text more, a row, a part or a byte.
func TestMostIsStillRead(t *testing.T) {
	row := "<row>" + full + "</row>"
	text := func(size int) map[string]string { return formOf(row, "<si><t>"+strings.Repeat("x", size)+"</t></si>") }
	of := func(rows, parts int) map[string]string {
		all := formOf(strings.Repeat(row, max(1, rows)), "<si><t>full</t></si>")
		for len(all) < parts {
			all[fmt.Sprint("p", len(all))] = ""
		}
		return all
	}
	for name, c := range map[string]struct{ most, over map[string]string }{
		"rows":  {of(MostRows, 0), of(MostRows+1, 0)},
		"parts": {of(1, MostParts), of(1, MostParts+1)},
		"text":  {text(MostText), text(MostText + 1)},
	} {
		if got, err := readForm(packed(t, c.most)); err != nil || got[0].Text(2) == "" {
			t.Errorf("%s: %d rows, %v", name, len(got), err)
		}
		var refused *Error
		if got, err := readForm(packed(t, c.over)); !errors.As(err, &refused) || got != nil {
			t.Errorf("more %s: %d rows, %v", name, len(got), err)
		}
	}
	for size, want := range map[int64]string{MostBytes: "not a workbook", MostBytes + 1: "larger than the 32 MB"} {
		if _, err := Read(zeros{}, size, "Form"); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%d bytes: %v, want %q", size, err, want)
		}
	}
}

// FuzzRead feeds a sheet and its texts: rows or an *Error, never a panic.
func FuzzRead(f *testing.F) {
	f.Add("<row>"+full+"</row>", "<si><t>full</t></si>")
	f.Add(`<row r="9"><c r="ZZ9" t="inlineStr"><is><t>x</t></is></c></row>`, "<si><r><t>a</t></r><rPh><t>x</t></rPh></si>")
	f.Fuzz(func(t *testing.T, rows, texts string) {
		got, err := readForm(packed(t, formOf(rows, texts)))
		var refused *Error
		if err != nil && (got != nil || !errors.As(err, &refused)) {
			t.Errorf("%d rows, %v", len(got), err)
		}
	})
}
