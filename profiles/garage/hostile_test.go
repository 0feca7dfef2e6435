package garage

import (
	"archive/zip"
	"bytes"
	"errors"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/sheet"
)

// with is a package with a part more.
func with(t *testing.T, data []byte, name, text string) []byte {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, f := range z.File {
		if f.Name != name {
			err = errors.Join(err, w.Copy(f))
		}
	}
	part, wrong := w.Create(name)
	if wrong == nil {
		_, wrong = part.Write([]byte(text))
	}
	if err := errors.Join(err, wrong, w.Close()); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// TestHostile: a workbook that is damaged or made to hurt, or whose figures hang
// on something else, is refused with what is wrong and where.
func TestHostile(t *testing.T) {
	good := demo(t)
	formula := func(text string, kind *string) []byte {
		return edited(t, good, func(f *excelize.File) {
			var err error
			if kind == nil {
				err = f.SetCellFormula("Car", "B4", text)
			} else {
				ref := "B4:B4"
				err = f.SetCellFormula("Car", "B4", text, excelize.FormulaOpts{Type: kind, Ref: &ref})
			}
			if err != nil {
				t.Fatal(err)
			}
		})
	}
	array := "array"
	long := edited(t, good, func(f *excelize.File) {
		for n := range sheet.MostRows + 1 {
			if err := f.SetCellInt("Shelf", address(2, n+3), 1); err != nil {
				t.Fatal(err)
			}
		}
	})
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"nothing":          {nil, "it is too short for a workbook"},
		"no package":       {[]byte(strings.Repeat("name: Juniper\n", 20)), "it is not a workbook, or a damaged one"},
		"half of it":       {good[:len(good)/2], "damaged"},
		"locked":           {append([]byte("\xd0\xcf\x11\xe0"), make([]byte, 600)...), "locked with a password"},
		"macros":           {with(t, good, "xl/vbaProject.bin", "x"), "it holds macros"},
		"a bomb":           {with(t, good, "xl/sharedStrings.xml", "<sst>"+strings.Repeat(" ", sheet.MostPart)+"</sst>"), "unpacks to more than 16 MB"},
		"another workbook": {formula("[1]Prices!A1", nil), "Car!B4: mass: a formula that reads another workbook"},
		"an array":         {formula("A1:A3*2", &array), "Car!B4: mass: a formula that fills several cells"},
		"endless rows":     {long, "Shelf: more than 20000 rows of a sheet are filled"},
		"somebody's":       {edited(t, good, func(f *excelize.File) { _ = f.DeleteSheet("Car"); _ = f.DeleteSheet("Fitted") }), "it has no sheet Car"},
	} {
		b, err := Open(fstest.MapFS{"garage.xlsx": {Data: c.data}}, "garage.xlsx")
		if err == nil {
			_, err = profiles.Load(b)
		}
		var bad profiles.Errors
		if !errors.As(err, &bad) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
	}
}
