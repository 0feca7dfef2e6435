package pack

import (
	"archive/zip"
	"bytes"
	"io"
	"regexp"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// TestMended: what the library writes is put right: the extent of a streamed
// sheet, the axes of a scatter chart, the names of the core properties.
func TestMended(t *testing.T) {
	f := excelize.NewFile()
	w, err := f.NewStreamWriter("Sheet1")
	if err != nil {
		t.Fatal(err)
	}
	for _, at := range []string{"A1", "C30", "AB31"} {
		if err := w.SetRow(at, []any{1.5, "x"}); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	if _, err := f.NewSheet("Empty"); err != nil {
		t.Fatal(err)
	}
	if _, err := f.NewSheet("Chart"); err != nil {
		t.Fatal(err)
	}
	if err := f.AddChart("Chart", "B2", &excelize.Chart{Type: excelize.Scatter, Series: []excelize.ChartSeries{{Categories: "Sheet1!$A$1:$A$9", Values: "Sheet1!$A$1:$A$9"}}}); err != nil {
		t.Fatal(err)
	}
	if err := f.SetDocProps(&excelize.DocProperties{Title: "T", Keywords: "k", Category: "c", LastModifiedBy: "m", Version: "1"}); err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := Write(&out, f); err != nil {
		t.Fatal(err)
	}
	z, err := zip.NewReader(bytes.NewReader(out.Bytes()), int64(out.Len()))
	if err != nil {
		t.Fatal(err)
	}
	parts := map[string]string{}
	for _, p := range z.File {
		r, err := p.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		parts[p.Name] = string(text)
	}
	if got := regexp.MustCompile(`<dimension[^>]*>`).FindString(parts["xl/worksheets/sheet1.xml"]); got != `<dimension ref="A1:AC31"/>` {
		t.Errorf("the sheet: %s", got)
	}
	if chart := parts["xl/charts/chart1.xml"]; strings.Count(chart, "<valAx>") != 2 || regexp.MustCompile("<(auto|lblAlgn|lblOffset|noMultiLvlLbl)").MatchString(chart) {
		t.Errorf("the chart: %s", chart)
	}
	props := parts["docProps/core.xml"]
	for _, want := range []string{`<cp:coreProperties xmlns:cp="http://schemas`, "<cp:keywords>k</cp:keywords>", "<cp:category>c</cp:category>", "<cp:version>1</cp:version>", "<cp:lastModifiedBy>m</cp:lastModifiedBy>", "<dc:title>T</dc:title>", "</cp:coreProperties>"} {
		if !strings.Contains(props, want) {
			t.Errorf("the properties lack %s: %s", want, props)
		}
	}
}
