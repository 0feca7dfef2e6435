package workbook

import (
	"encoding/xml"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// allowed are the functions that a formula may use: all are older than the
// format, none is volatile, none needs an array.
var allowed = []string{
	"AND", "COUNTIF", "EXP", "FIXED", "IF", "INDEX", "INT", "LEFT", "LN", "MATCH", "MAX", "MIN",
	"ISNUMBER", "ISTEXT", "NORMSDIST", "OR", "SQRT", "SUBSTITUTE", "SUM", "SUMIF", "VALUE",
}

var (
	inQuotes  = regexp.MustCompile(`"[^"]*"|'[^']*'!`)
	functions = regexp.MustCompile(`([A-Za-z_.][A-Za-z0-9_.]*)\(`)
)

// formulas lists a workbook's formulas by sheet and cell.
func formulas(t testing.TB, book []byte) map[string]string {
	t.Helper()
	out := map[string]string{}
	for name, data := range parts(t, book) {
		if !strings.HasPrefix(name, "xl/worksheets/sheet") {
			continue
		}
		var sheet struct {
			Rows []struct {
				C []struct {
					R string `xml:"r,attr"`
					F string `xml:"f"`
				} `xml:"c"`
			} `xml:"sheetData>row"`
			Formats []struct {
				Cells string   `xml:"sqref,attr"`
				F     []string `xml:"cfRule>formula"`
			} `xml:"conditionalFormatting"`
		}
		if err := xml.Unmarshal([]byte(data), &sheet); err != nil {
			t.Fatal(err)
		}
		for _, r := range sheet.Rows {
			for _, c := range r.C {
				if c.F != "" {
					out[name+" "+c.R] = c.F
				}
			}
		}
		for _, c := range sheet.Formats {
			for _, f := range c.F {
				out[name+" format "+c.Cells+" "+f] = f
			}
		}
	}
	return out
}

func TestFormulasKeepToTheAllowed(t *testing.T) {
	used := map[string]bool{}
	for _, p := range []*plan.Plan{juniper(t), planned(t, "fjord", "midsummer")} {
		all := formulas(t, written(t, p, quantity.US))
		if len(all) < 2000 {
			t.Errorf("%d formulas", len(all))
		}
		for at, f := range all {
			bare := inQuotes.ReplaceAllString(f, "")
			for _, m := range functions.FindAllStringSubmatch(bare, -1) {
				used[m[1]] = true
				if !slices.Contains(allowed, m[1]) {
					t.Errorf("%s uses %s: %s", at, m[1], f)
				}
			}
			if len(f) > 1000 || strings.Contains(bare, "#") || strings.Contains(bare, "%!") {
				t.Errorf("%s: %s", at, f)
			}
			if strings.Contains(at, "format") && strings.Contains(f, "!") {
				t.Errorf("%s: a format of before 2010 sees its own sheet only: %s", at, f)
			}
		}
	}
	for _, f := range allowed {
		if !used[f] {
			t.Errorf("nothing uses %s: take it off the list", f)
		}
	}
}

// TestNamesAreNoAddresses keeps defined names apart from cells, up to the
// last column of the format.
func TestNamesAreNoAddresses(t *testing.T) {
	cell := regexp.MustCompile(`^[A-Za-z]{1,3}[0-9]+$|^[Rr][0-9]*[Cc][0-9]*$`)
	named := 0
	f := reopened(t, juniper(t), quantity.US)
	for _, n := range f.GetDefinedName() {
		if strings.HasPrefix(n.Name, "_xlnm.") {
			continue
		}
		named++
		if cell.MatchString(n.Name) || strings.ContainsAny(n.Name, " -") {
			t.Errorf("name %q", n.Name)
		}
		sheet, at, ok := strings.Cut(n.RefersTo, "!")
		if v, err := f.GetCellValue(strings.Trim(sheet, "'"), strings.ReplaceAll(at, "$", "")); !ok || err != nil || v == "" {
			t.Errorf("%s refers to %s: %q, %v", n.Name, n.RefersTo, v, err)
		}
	}
	if named < 8 {
		t.Errorf("%d names", named)
	}
}

// TestFormulasAreLocked finds every formula cell locked, on a protected sheet
// that asks for no password, and every open cell ruled.
func TestFormulasAreLocked(t *testing.T) {
	f := reopened(t, juniper(t), quantity.US)
	open := 0
	for _, s := range f.GetSheetList() {
		if p, err := f.GetSheetProtection(s); err != nil || p.Password != "" || !p.SelectUnlockedCells {
			t.Errorf("%s: protection %+v, %v", s, p, err)
		}
		for i, r := range rows(t, f, s) {
			for j := range r {
				at, err := excelize.CoordinatesToCellName(j+1, i+1)
				if err != nil {
					t.Fatal(err)
				}
				formula, err := f.GetCellFormula(s, at)
				if err != nil {
					t.Fatal(err)
				}
				if l := locked(t, f, s, at); !l {
					open++
					if formula != "" {
						t.Errorf("%s!%s holds a formula and is open", s, at)
					}
				}
			}
		}
	}
	if open < 100 {
		t.Errorf("%d open cells", open)
	}
}

// TestChangedFlagsStandAtNone finds nothing marked as changed in a new workbook.
func TestChangedFlagsStandAtNone(t *testing.T) {
	f := reopened(t, juniper(t), quantity.US)
	for _, s := range []string{"Summary", "Legs", "Wear", "Readings", "Decisions", "Shopping and packing"} {
		if v, err := f.GetCellValue(s, "A3"); err != nil || v != "" {
			t.Errorf("%s says %q, %v", s, v, err)
		}
		if formula, err := f.GetCellFormula(s, "A3"); err != nil || !strings.Contains(formula, "CHANGED") {
			t.Errorf("%s: %q, %v", s, formula, err)
		}
	}
}
