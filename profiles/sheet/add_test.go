package sheet

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// added is a package with cells filled, read again.
func added(t *testing.T, parts map[string]string, puts ...Put) (*Book, map[string]string) {
	t.Helper()
	data := packed(t, parts)
	b, err := Open(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := b.Add(&out, map[string][]Put{"Form": puts}); err != nil {
		t.Fatal(err)
	}
	again, err := Open(bytes.NewReader(out.Bytes()), int64(out.Len()))
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]string{}
	for _, f := range again.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		all[f.Name] = string(text)
	}
	return again, all
}

// TestAddLeavesTheRest: cells go between the others, in their looks, and not a
// byte besides changes.
func TestAddLeavesTheRest(t *testing.T) {
	sheetOf := func(head, rows, tail string) map[string]string {
		parts := formOf("", "")
		parts["xl/s.xml"] = `<worksheet xmlns:r="x">` + head + "<sheetData>" + rows + "</sheetData>" + tail + "</worksheet>"
		parts["xl/styles.xml"] = `<styleSheet><numFmts><numFmt numFmtId="170" formatCode="yyyy\-mm\-dd"/></numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="170"/></cellXfs></styleSheet>`
		parts["xl/charts/chart1.xml"] = "<c>a chart &amp; more</c>"
		return parts
	}
	const tail = `<mergeCells><mergeCell ref="Z1:Z2"/></mergeCells><extLst/>`
	for _, c := range []struct {
		name       string
		head, rows string
		puts       []Put
		want       string
	}{
		{
			"below the last", `<dimension ref="A1:B2"/><cols><col min="1" max="1" width="9" style="1"/></cols>`,
			`<row r="1"><c r="A1"><v>1</v></c></row><row r="2" ht="20"><c r="A2" s="1"><v>2</v></c><c r="B2" s="0"/></row>`,
			[]Put{{Row: 3, Column: 1, Like: 2, Text: "2027-05-16", Form: Day}, {Row: 3, Column: 2, Like: 2, Text: "a < b", Form: Text}, {Row: 3, Column: 3, Like: 2, Text: "7.5"}},
			`<worksheet xmlns:r="x"><dimension ref="A1:C3"/><cols><col min="1" max="1" width="9" style="1"/></cols><sheetData><row r="1"><c r="A1"><v>1</v></c></row><row r="2" ht="20"><c r="A2" s="1"><v>2</v></c><c r="B2" s="0"/></row>` +
				`<row r="3"><c r="A3" s="1"><v>46523</v></c><c r="B3" s="0" t="inlineStr"><is><t xml:space="preserve">a &lt; b</t></is></c><c r="C3"><v>7.5</v></c></row></sheetData>` + tail + "</worksheet>",
		},
		{
			"between and into rows that are there", "",
			`<row r="1"><c r="A1"><v>1</v></c></row><row r="4" s="3"><c r="C4" s="1"/><c r="E4"><f>A4+1</f><v>1</v></c></row><row r="6"/>`,
			[]Put{{Row: 4, Column: 3, Text: "2027-05-16", Form: Day}, {Row: 4, Column: 4, Text: "x", Form: Text}, {Row: 2, Column: 1, Text: "2027-05-16", Form: Day}},
			`<worksheet xmlns:r="x"><sheetData><row r="1"><c r="A1"><v>1</v></c></row><row r="2"><c r="A2" t="inlineStr"><is><t xml:space="preserve">2027-05-16</t></is></c></row>` +
				`<row r="4" s="3"><c r="C4" s="1"><v>46523</v></c><c r="D4" t="inlineStr"><is><t xml:space="preserve">x</t></is></c><c r="E4"><f>A4+1</f><v>1</v></c></row><row r="6"/></sheetData>` + tail + "</worksheet>",
		},
	} {
		parts := sheetOf(c.head, c.rows, tail)
		_, got := added(t, parts, c.puts...)
		if diff := cmp.Diff(c.want, got["xl/s.xml"]); diff != "" {
			t.Errorf("%s (- wanted, + got):\n%s", c.name, diff)
		}
		for name, text := range parts {
			if name != "xl/s.xml" && got[name] != text {
				t.Errorf("%s: %s changed", c.name, name)
			}
		}
	}
}

// TestAddToOtherWriters: a sheet without rows, and elements with a prefix.
func TestAddToOtherWriters(t *testing.T) {
	for _, part := range []string{
		`<worksheet><sheetData/></worksheet>`,
		`<x:worksheet xmlns:x="u"><x:dimension ref="A1"/><x:sheetData><x:row><x:c r="A1"><x:v>3</x:v></x:c></x:row></x:sheetData></x:worksheet>`,
		`<x:worksheet xmlns:x="u"><x:sheetData /></x:worksheet>`,
	} {
		parts := formOf("", "")
		parts["xl/s.xml"] = part
		b, got := added(t, parts, Put{Row: 5, Column: 28, Text: "here", Form: Text})
		page, err := b.Page("Form")
		if err != nil || page.Rows[len(page.Rows)-1].Text(28) != "here" {
			t.Errorf("%s: %v, %v\n%s", part, page.Rows, err, got["xl/s.xml"])
		}
		if strings.HasPrefix(part, "<x:") != strings.Contains(got["xl/s.xml"], `<x:c r="AB5"`) {
			t.Errorf("the prefix: %s", got["xl/s.xml"])
		}
	}
}

// TestDays: serials as ISO/IEC 29500-1, 18.17.4.1 gives them: 1 January 2008 is
// 39448 with the base of 1900, and 37986 with that of 1904.
func TestDays(t *testing.T) {
	for since, serial := range map[string]string{"0": "39448", "1": "37986"} {
		parts := formOf(`<row r="1"><c r="A1" s="1"><v>`+serial+`</v></c></row>`, "")
		parts["xl/workbook.xml"] = strings.Replace(parts["xl/workbook.xml"], "<workbook>", `<workbook><workbookPr date1904="`+since+`"/>`, 1)
		parts["xl/styles.xml"] = `<styleSheet><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/></cellXfs></styleSheet>`
		data := packed(t, parts)
		b, err := Open(bytes.NewReader(data), int64(len(data)))
		if err != nil {
			t.Fatal(err)
		}
		page, err := b.Page("Form")
		if err != nil {
			t.Fatal(err)
		}
		day, ok := page.Rows[0].Cells[1].Day()
		if !ok || day.Format("2006-01-02") != "2008-01-01" {
			t.Errorf("%s is %v", serial, day)
		}
		if since == "0" && Serial(day) != 39448 {
			t.Errorf("%v is %d", day, Serial(day))
		}
	}
}

// TestShown: the formats of ISO/IEC 29500-1, 18.8.30, and codes of programs.
func TestShown(t *testing.T) {
	for _, c := range []struct {
		id   int
		code string
		want Form
	}{
		{0, "", Number}, {1, "", Number}, {4, "", Number}, {9, "", Percent}, {10, "", Percent}, {12, "", Fraction}, {14, "", Day}, {17, "", Day},
		{20, "", Hours}, {21, "", Clock}, {45, "", Clock}, {47, "", Clock}, {22, "", Day}, {49, "", Number},
		{164, "0.00", Number}, {164, "General", Number}, {164, `#,##0.00\ "days"`, Number}, {164, `[$$-409]#,##0`, Number}, {164, "[Red]-0;0", Number},
		{164, "YYYY-MM-DD", Day}, {164, `ddd\ mmm\ d`, Day}, {164, "mmm-yy", Day}, {164, "mmmm", Day}, {164, "HH:MM", Hours}, {164, "[h]:mm:ss", Clock}, {164, "mm:ss.0", Clock},
		{164, "0.0%", Percent}, {164, "# ?/?", Fraction}, {164, "# ??/32", Fraction}, {164, `0 "m/s"`, Number}, {164, "@", Number},
	} {
		if got := shown(c.id, c.code); got != c.want {
			t.Errorf("%d %q is %d, want %d", c.id, c.code, got, c.want)
		}
	}
}
