package workbook

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"

	"example.com/tripwear/planner/workbook/form"
)

var sheetNames = []string{"Card", "Summary", "Legs", "Wear", "Decisions", "Shopping and packing", "Readings", "Assumptions", "Rates", "Factors", "Workings", "Inputs"}

func TestSameBytes(t *testing.T) {
	want := written(t, juniper(t), quantity.US)
	for range 4 { // map order changes from run to run
		if !bytes.Equal(want, written(t, juniper(t), quantity.US)) {
			t.Fatal("the same plan gave other bytes")
		}
	}
	if bytes.Equal(want, written(t, juniper(t), quantity.Metric)) {
		t.Error("metric units changed nothing")
	}
}

func TestSheetsInOrder(t *testing.T) {
	for _, p := range []*plan.Plan{juniper(t), planned(t, "fjord", "midsummer")} {
		f := reopened(t, p, quantity.Metric)
		want := sheetNames
		if d := cmp.Diff(want, f.GetSheetList()); d != "" {
			t.Errorf("%s: sheets (-want +got)\n%s", p.Car, d)
		}
		for _, s := range want {
			if len(rows(t, f, s)) < 3 {
				t.Errorf("%s: sheet %s is empty", p.Car, s)
			}
		}
	}
}

// TestHostileText writes a plan whose words and figures are as bad as they come.
func TestHostileText(t *testing.T) {
	p := juniper(t)
	p.Car, p.Trip = "#REF! & sons", "=1+1\x00\x1b"
	p.Legs[0].Name = strings.Repeat("#N/A long way ", 40)
	p.Shopping[0].Name, p.Shopping[0].Price = "#1 pads", math.NaN()
	p.Sets[0].Decision.Reason = "##########"
	p.Sets[0].Points[0].After[0].P50 = math.NaN()
	p.Sets[0].After[1].P95 = math.Inf(1)
	p.Sets[0].Decision.PAsIs = math.Inf(-1)
	f := reopened(t, p, quantity.US)
	for _, s := range sheetNames {
		for i, r := range rows(t, f, s) {
			for j, v := range r {
				if strings.HasPrefix(v, "#") || strings.Contains(v, "NaN") || strings.Contains(v, "Inf") {
					t.Errorf("%s row %d column %d: %q", s, i+1, j+1, v)
				}
			}
		}
	}
	if got := rows(t, f, "Summary")[0][0]; got != "No. REF! & sons: =1+1  " {
		t.Errorf("title %q", got)
	}
	if formula, err := f.GetCellFormula("Summary", "A1"); err != nil || formula != "" {
		t.Errorf("a name became the formula %q (%v)", formula, err)
	}
}

func TestEmptyPlanIsRefused(t *testing.T) {
	var buf bytes.Buffer
	if err := Write(&buf, &plan.Plan{Car: "Juniper"}, quantity.US); err == nil || buf.Len() > 0 {
		t.Errorf("error %v after %d bytes", err, buf.Len())
	}
}

func TestProperties(t *testing.T) {
	p := juniper(t)
	for name, c := range map[string]struct {
		depart time.Time
		stamp  string
	}{
		"departure": {time.Date(2027, 5, 13, 0, 0, 0, 0, time.UTC), "2027-05-13T00:00:00Z"},
		"no date":   {time.Time{}, "2000-01-01T00:00:00Z"},
	} {
		p.Depart = c.depart
		got, err := reopened(t, p, quantity.US).GetDocProps()
		if err != nil {
			t.Fatal(err)
		}
		if got.Creator != "tripwear" || got.Title != "Juniper: Spring run west" || got.Subject == "" || got.Created != c.stamp || got.Modified != c.stamp {
			t.Errorf("%s: %+v", name, got)
		}
	}
}

// parts reads the package's parts by name.
func parts(t testing.TB, b []byte) map[string]string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		data, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		out[f.Name] = string(data)
	}
	return out
}

// TestCharts looks for each chart's title, its axes' titles and its reading for who cannot see it.
func TestCharts(t *testing.T) {
	p := juniper(t)
	all := parts(t, written(t, p, quantity.US))
	want := map[string][]string{
		"Tread left":           {"after leg", "left, 1/32 in"},
		"Pads left":            {"after leg", "left, mm"},
		"Rotor crack life":     {"after leg", "share of life left"},
		"each hub bearing":     {"after leg", "chance of lasting"},
		"Where the money goes": {"expense", "amount, USD"},
		"from above":           {"ahead of the start, ft", "to its left, ft"},
	}
	for title, texts := range want {
		var found string
		for name, xml := range all {
			if strings.HasPrefix(name, "xl/charts/") && strings.Contains(xml, title) {
				found = xml
			}
		}
		if found == "" {
			t.Errorf("no chart %q", title)
			continue
		}
		for _, text := range texts {
			if !strings.Contains(found, text) {
				t.Errorf("chart %q lacks %q", title, text)
			}
		}
	}
	for name, xml := range all {
		if strings.HasPrefix(name, "xl/drawings/drawing") && strings.Count(xml, "<xdr:cNvPr") != strings.Count(xml, `descr="`) {
			t.Errorf("%s has a chart without a description", name)
		}
	}
}

// TestChartFigures compares what a chart draws with the plan.
func TestChartFigures(t *testing.T) {
	p := juniper(t)
	tires := rows(t, reopened(t, standing(p), quantity.Metric), wearName)
	const col = wearWidth + pointLife + 2 // labels; the wheels follow
	if d := cmp.Diff([]string{"after leg", "LF", "RF", "LR", "RR", "limit"}, tires[1][col:]); d != "" {
		t.Errorf("lines (-want +got)\n%s", d)
	}
	for i, id := range []string{"tires-front", "tires-front", "tires-rear", "tires-rear"} {
		least := math.Inf(1)
		for _, pt := range find(t, p, id).Points {
			if pt.Place == columns[i] {
				least = math.Min(least, math.Max(0, nominal(pt, 2)*1000))
			}
		}
		same(t, columns[i], tires[5][col+1+i], least) // after the start and two legs
	}
	same(t, "limit", tires[5][col+5], 1.5875) // 2/32 in
}

func TestPages(t *testing.T) {
	for system, size := range map[quantity.System]int{quantity.US: letter, quantity.Metric: a4} {
		f := reopened(t, juniper(t), system)
		names := map[string]int{}
		for _, n := range f.GetDefinedName() {
			names[n.Name]++
		}
		if names["_xlnm.Print_Area"] != len(sheetNames)-4 || names["_xlnm.Print_Titles"] != len(sheetNames)-4 { // the machinery stays in
			t.Errorf("%s: print names %v", system, names)
		}
		for _, s := range sheetNames {
			l, err := f.GetPageLayout(s)
			if err != nil {
				t.Fatal(err)
			}
			if *l.Size != size || *l.AdjustTo != 100*leastScale {
				t.Errorf("%s %s: size %d, scale %d", system, s, *l.Size, *l.AdjustTo)
			}
			panes, err := f.GetPanes(s)
			if err != nil || !panes.Freeze || panes.YSplit < choose(s == cardName, 1, 2) {
				t.Errorf("%s %s: panes %+v, %v", system, s, panes, err)
			}
			// What scrolls begins right below and beside what stays.
			if corner, err := excelize.CoordinatesToCellName(panes.XSplit+1, panes.YSplit+1); err != nil || panes.TopLeftCell != corner {
				t.Errorf("%s %s: scrolls from %s, want %s", system, s, panes.TopLeftCell, corner)
			}
			h, err := f.GetHeaderFooter(s)
			if err != nil || h.OddHeader != "&LSpring run west&Rleaves 13 May 2027" {
				t.Errorf("%s %s: header %+v, %v", system, s, h, err)
			}
		}
	}
}

// driving is the demo's car on a trip of so many legs: its own trip's, over and
// over, a leg a circuit day.
func driving(t testing.TB, legs int) *plan.Plan {
	t.Helper()
	folder, trip := randomcar.Demo(t, "juniper")
	var days []profiles.Leg
	for _, l := range trip.Legs {
		n := max(1, l.Days)
		l.Days = min(1, l.Days)
		days = append(days, slices.Repeat([]profiles.Leg{l}, n)...)
	}
	trip.Legs = around(days, legs)
	p, err := planner.Make(folder, trip, planner.Options{Draws: 100})
	if err != nil {
		t.Fatal(err)
	}
	planner.Around(p, folder, trip)
	return p
}

// around is the first n of values that repeat; of none it is none.
func around[T any](values []T, n int) []T {
	if len(values) == 0 {
		return nil
	}
	return slices.Repeat(values, n/len(values)+1)[:n]
}

// TestLongTrip: eight legs stand side by side on the Wear and the Rates sheet,
// a ninth begins the next block.
func TestLongTrip(t *testing.T) {
	for legs, blocks := range map[int]int{8: 1, 10: 2, 19: 3} { // every eighth is a stop at a workshop
		for _, s := range layOut(driving(t, legs), quantity.US).sheets {
			heads := 0
			for _, r := range s.rows {
				if len(r.cells) > 1 && r.cells[0].value == "Set" && r.cells[1].value != "Points" {
					heads++
				}
			}
			switch s.name {
			case "Wear":
				if heads != blocks {
					t.Errorf("%d legs: %d blocks on the Wear sheet, want %d", legs, heads, blocks)
				}
			case "Rates":
				if heads != 5*blocks {
					t.Errorf("%d legs: %d tables of rates, want %d", legs, heads, 5*blocks)
				}
			case "Legs":
				if len(s.rows) < 4+legs {
					t.Errorf("%d legs: %d rows of them", legs, len(s.rows))
				}
			}
		}
	}
}

// TestStopFirst: a trip may begin at a workshop, where nothing wears.
func TestStopFirst(t *testing.T) {
	p := juniper(t)
	p.Legs[0].Kind = profiles.StopLeg
	heads := rows(t, reopened(t, p, quantity.US), wearName)[wearHeads-1]
	if got := heads[wearLegs-1]; got != "2  Heron Flats day 1" {
		t.Errorf("the first leg is %q", got)
	}
}

// TestNowhere: a trip of stops alone has a workbook, whose points stay as they are.
func TestNowhere(t *testing.T) {
	p := juniper(t)
	for j := range p.Legs {
		p.Legs[j].Kind = profiles.StopLeg
	}
	first := rows(t, reopened(t, p, quantity.US), wearName)[wearHeads+1]
	if first[wearNow-1] != first[wearStart-1] || first[wearStatus-1] != good {
		t.Errorf("%q", first)
	}
}

// TestLegNames: a decision may name any leg; a chart's axis has room for 26
// letters of it.
func TestLegNames(t *testing.T) {
	just := strings.Repeat("ö", 26)
	v := viewOf(&plan.Plan{Legs: []plan.Leg{{Name: just, Kind: profiles.CircuitLeg}, {Name: just + "ö", Kind: profiles.CircuitLeg}}}, quantity.US)
	for leg, want := range map[int]bool{-1: false, 0: true, 1: true, 2: false} {
		if v.has(leg) != want {
			t.Errorf("leg %d: %v", leg, !want)
		}
	}
	if got := v.byLeg()[1]; got != "1  "+just {
		t.Errorf("26 letters: %q", got)
	}
	if got := v.byLeg()[2]; got != "2  "+strings.Repeat("ö", 25)+"…" {
		t.Errorf("27 letters: %q", got)
	}
}

func TestInputsAreUnlockedAndRuled(t *testing.T) {
	f := reopened(t, juniper(t), quantity.US)
	rules, err := f.GetDataValidations(form.Sheet)
	if err != nil {
		t.Fatal(err)
	}
	ruled := map[string]bool{}
	for _, r := range rules {
		for _, at := range strings.Fields(r.Sqref) {
			ruled[at] = true
		}
	}
	asked := 0
	for i, r := range rows(t, f, form.Sheet) {
		if len(r) < 6 || r[5] == "" || r[5] == "Unit" {
			continue
		}
		asked++
		at := fmt.Sprintf("G%d", i+1)
		if !ruled[at] {
			t.Errorf("%s (%s) takes anything", at, r[1])
		}
		if locked(t, f, form.Sheet, at) {
			t.Errorf("%s (%s) is locked", at, r[1])
		}
		if expected := fmt.Sprintf("C%d", i+1); !locked(t, f, form.Sheet, expected) {
			t.Errorf("%s is open to overwriting", expected)
		}
	}
	if asked == 0 || asked != len(ruled) {
		t.Errorf("%d entries, %d rules", asked, len(ruled))
	}
}

func locked(t *testing.T, f *excelize.File, sheet, at string) bool {
	t.Helper()
	id, err := f.GetCellStyle(sheet, at)
	if err != nil {
		t.Fatal(err)
	}
	style, err := f.GetStyle(id)
	if err != nil {
		t.Fatal(err)
	}
	return style.Protection == nil || style.Protection.Locked
}
