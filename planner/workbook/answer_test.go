package workbook

import (
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/profiles/quantity"
)

// TestListing compares the cells of a demo workbook, its formulas, rules, marks
// and names, and how it lies on the page, with what was last looked at and
// found good. It comes first: a cell out of place is seen here before other
// tests say what rule it breaks. UPDATE=1 rewrites the file.
func TestListing(t *testing.T) {
	const path = "../../testdata/golden/workbook-juniper.txt"
	book := written(t, juniper(t), quantity.US)
	f := opened(t, book)
	var got []string
	for _, n := range f.GetDefinedName() {
		got = append(got, fmt.Sprintf("name %s %s %s", n.Name, n.RefersTo, n.Scope))
	}
	for _, sheet := range f.GetSheetList() {
		if all := cells(t, f, sheet); pictured[sheet] {
			got = append(got, listed(sheet, all, box.String)...)
		} else {
			got = append(got, folded(sheet, all)...)
		}
		got = append(got, rulesAndMarks(t, f, sheet)...)
	}
	got = append(got, layout(t, f, parts(t, book))...)
	if os.Getenv("UPDATE") != "" {
		if err := os.WriteFile(path, []byte(strings.Join(got, "\n")), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestOtherDemo: the other demo's workbook, metric, has the sheets of the first
// one and, sheet by sheet, no cell of another shape: another trip has other
// columns, other units other factors and words.
func TestOtherDemo(t *testing.T) {
	one, other := reopened(t, juniper(t), quantity.US), reopened(t, planned(t, "fjord", "midsummer"), quantity.Metric)
	if diff := cmp.Diff(one.GetSheetList(), other.GetSheetList()); diff != "" {
		t.Fatalf("sheets (-juniper +fjord):\n%s", diff)
	}
	said := map[string]bool{}
	for _, sheet := range other.GetSheetList() {
		known := map[string]bool{}
		for _, row := range cells(t, one, sheet) {
			for _, c := range row {
				known[likeness(c)] = true
			}
		}
		for i, row := range cells(t, other, sheet) {
			for j, c := range row {
				said[c.value] = true
				if !known[likeness(c)] {
					t.Errorf("%s, row %d column %d: no cell of the first is like %s", sheet, i+1, j+1, c)
				}
			}
		}
	}
	for _, want := range []string{"Distance, km", "Air, °C", "Fuel, L", "about 257 L, 5.1 tanks", "Tread left, mm", "Planes, km/h", "mm"} {
		if !said[want] {
			t.Errorf("no cell says %q", want)
		}
	}
}

var ofOneTrip = regexp.MustCompile(`"[^"]*"|\$?\b[A-Z]{1,2}\$?#|\b[0-9][0-9.E]*`)

// likeness is a cell's shape but for columns, numbers and words, and how many
// cells a run has.
func likeness(c box) string {
	return strings.ReplaceAll(ofOneTrip.ReplaceAllString(c.shape(), "@"), "@:@", "@")
}

// pictured are the sheets that README has pictures of: their listing is whole.
var pictured = map[string]bool{"Summary": true, "Wear": true}
