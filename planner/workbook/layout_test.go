package workbook

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"

	"example.com/tripwear/planner/workbook/expr"
)

func TestWrapped(t *testing.T) {
	for _, c := range []struct {
		text string
		room float64
		want int
	}{
		{"", 10, 1},
		{"one", 10, 1},
		{"one two", 7, 1},
		{"one two", 6, 2},
		{"one two three", 7, 2},
		{"abcde", 5, 1},
		{"abcdefghij", 5, 2},
		{"abcdefghijkl", 5, 3},
		{"ab abcdefghijkl", 5, 4},
		{"abcdefghijkl ab", 5, 3},
		{"abcdefghijkl abc", 5, 4},
	} {
		if got := wrapped(c.text, c.room); got != c.want {
			t.Errorf("%q in %v: %d lines, want %d", c.text, c.room, got, c.want)
		}
	}
}

// TestTextHeight by hand: a column of 20 digits holds 22 letters of plain text,
// 22/1.08 of bold and 22/1.7 of a title; a line takes 13 points times its size.
func TestTextHeight(t *testing.T) {
	letters := func(n int) string { return strings.Repeat("a", n) }
	for _, c := range []struct {
		weight weight
		total  bool
		text   string
		want   float64
	}{
		{text: letters(22), want: 15},
		{text: letters(23), want: 28},
		{text: "a\nb\nc", want: 41},
		{weight: quiet, text: letters(22), want: 15},
		{weight: quiet, text: letters(23), want: 28},
		{weight: header, text: letters(21), want: 30.08},
		{weight: strong, text: letters(20), want: 16.04},
		{weight: strong, text: letters(21), want: 30.08},
		{weight: warning, text: letters(21), want: 30.08},
		{weight: alert, text: letters(21), want: 30.08},
		{weight: stop, text: letters(21), want: 30.08},
		{weight: calm, text: letters(22), want: 15},
		{total: true, text: letters(21), want: 30.08},
		{weight: banner, text: letters(12), want: 24.1},
		{weight: banner, text: letters(13), want: 46.2},
	} {
		l := look{weight: c.weight, total: c.total}
		if got := l.textHeight(c.text, 20); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%+v: %v points", c, got)
		}
	}
	if got := (look{}).textHeight(letters(8), 1); got != 28 {
		t.Errorf("a narrow column, which still takes four letters: %v points", got)
	}
}

func TestNarrowerIsNeverLower(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringMatching(`[a-z]{1,12}( [a-z]{1,12}){0,20}`).Draw(t, "text")
		narrow := rapid.Float64Range(4, 60).Draw(t, "narrow")
		wide := rapid.Float64Range(narrow, 120).Draw(t, "wide")
		if wrapped(s, narrow) < wrapped(s, wide) {
			t.Errorf("%q takes fewer lines in %v than in %v", s, narrow, wide)
		}
	})
}

// TestKeepDoesNotCut counts the points between page breaks of a sheet of
// blocks that each fit a page.
func TestKeepDoesNotCut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := &sheet{wide: rapid.Bool().Draw(t, "wide"), widths: []float64{rapid.Float64Range(10, 200).Draw(t, "width")}}
		s.addHigh(20, text(look{}, "title"))
		s.head = 1
		for range rapid.IntRange(1, 40).Draw(t, "blocks") {
			rows := rapid.IntRange(1, 20).Draw(t, "rows")
			s.keep(float64(rows) * 15)
			for range rows {
				s.addHigh(15)
			}
		}
		breaks := append(append([]int{}, s.breaks...), len(s.rows)+1)
		begun := 1
		for i, at := range breaks {
			used := 0.0
			if i > 0 {
				used = 20
			}
			for _, r := range s.rows[begun-1 : at-1] {
				used += r.height
			}
			if used > s.room() {
				t.Errorf("page %d holds %v points, room %v", i+1, used, s.room())
			}
			begun = at
		}
	})
}

// TestKeepWhatJustFits: a block that fills a page to its end stays there, and a
// point more begins the next page, once.
func TestKeepWhatJustFits(t *testing.T) {
	for more, want := range map[float64]int{0: 0, 1: 1} {
		s := &sheet{widths: []float64{10}}
		s.addHigh(84, text(look{}, "title"))
		s.head = 1
		for range 4 {
			s.addHigh(100)
		}
		if s.left() != 371 { // of 684 points at 80 %
			t.Fatalf("%v points left", s.left())
		}
		s.keep(371 - slackPoints + more)
		s.keep(371 - slackPoints + more)
		if len(s.breaks) != want {
			t.Errorf("%v points more: page breaks %v", more, s.breaks)
		}
		s.addHigh(371 - slackPoints)
		if left := s.left(); left != slackPoints+float64(want)*400 { // below the title, that prints again, and the block
			t.Errorf("%v points more: %v left", more, left)
		}
	}
}

// pagesOf numbers the page that each row of a sheet prints on, and gives the
// points that are free below it.
func pagesOf(s *sheet) (pages []int, free []float64) {
	head := s.again()
	page, used := 0, 0.0
	for i, r := range s.rows {
		if slices.Contains(s.breaks, i+1) || used+r.height > s.room() {
			page, used = page+1, head
		}
		used += r.height
		pages, free = append(pages, page), append(free, s.room()-used)
	}
	return pages, free
}

// tablesOf gives the first and the last row of every table: from its heading
// to the next gap, heading or note.
func tablesOf(s *sheet) (tables [][2]int) {
	ends := func(r row) bool {
		return len(r.cells) == 0 || r.cells[0].look.weight == heading || r.cells[0].over == len(s.widths)
	}
	for i, r := range s.rows {
		if len(r.cells) == 0 || r.cells[0].look.weight != heading {
			continue
		}
		last := i + 1 // a note may stand right below the heading
		for last+1 < len(s.rows) && !ends(s.rows[last+1]) {
			last++
		}
		tables = append(tables, [2]int{i, last})
	}
	return tables
}

// TestPagesOfTrips: on trips of twelve legs, of one, to three circuits and to
// none, no chart is cut, no heading stands alone at the foot of a page, every
// printed sheet is as wide as its paper takes at its scale in a wide font, and no
// status is marked that is good.
func TestPagesOfTrips(t *testing.T) {
	const digitPoints = 6.36 // a digit of DejaVu Sans, a wide font, at 10 points
	for name, p := range map[string]*plan.Plan{"twelve": driving(t, 12), "one": driving(t, 1), "two": driving(t, 2), "nineteen": driving(t, 19), "three circuits": threeCircuits(t), "none": toNoCircuit(t)} {
		for _, s := range layOut(p, quantity.US).sheets {
			if s.hidden {
				continue
			}
			if width, _ := s.paper(); sum(s.widths)*digitPoints*leastScale > width+1 {
				t.Errorf("%s: %s is %v digits wide", name, s.name, sum(s.widths))
			}
			pages, _ := pagesOf(s)
			for _, c := range s.charts {
				if pages[c.at-1] != pages[c.at+c.rows-2] || c.rows < 9 {
					t.Errorf("%s: a chart on %s is cut or too low, rows %d to %d", name, s.name, c.at, c.at+c.rows-1)
				}
			}
			for i, r := range s.rows[:cmp.Or(s.printed, len(s.rows))] {
				if len(r.cells) > 0 && r.cells[0].look.weight == heading && (i+1 >= len(s.rows) || pages[i] != pages[i+1]) {
					t.Errorf("%s: %s: the heading %q stands alone at the foot of a page", name, s.name, r.cells[0].value)
				}
			}
		}
	}
}

// threeCircuits is the demo's car on its way to the demo's two circuits and back
// to the first; toNoCircuit on a road alone.
func threeCircuits(t *testing.T) *plan.Plan {
	t.Helper()
	folder, trip := randomcar.Demo(t, "juniper")
	trip.Legs = []profiles.Leg{
		randomcar.Road(200), randomcar.Days("heron-flats", 1, "intermediate"), randomcar.Road(300), randomcar.Days("quarry-ridge", 1, "intermediate"), randomcar.Road(200), randomcar.Days("heron-flats", 1, "intermediate"), randomcar.Road(100),
	}
	return made(t, folder, trip)
}

func toNoCircuit(t *testing.T) *plan.Plan {
	t.Helper()
	folder, trip := randomcar.Demo(t, "juniper")
	trip.Legs = []profiles.Leg{randomcar.Road(200), randomcar.Road(300)}
	return made(t, folder, trip)
}

func made(t *testing.T, folder *profiles.Folder, trip profiles.Trip) *plan.Plan {
	t.Helper()
	p, err := planner.Make(folder, trip, planner.Options{Draws: 100})
	if err != nil {
		t.Fatal(err)
	}
	planner.Around(p, folder, trip)
	return p
}

// TestUnitsPrintAlike compares a cell as shown with what the terminal prints.
func TestUnitsPrintAlike(t *testing.T) {
	for _, system := range []quantity.System{quantity.US, quantity.Metric} {
		u := unitsOf(system)
		for _, c := range []struct {
			unit unit
			si   float64
			want string
		}{
			{u.distance, 985e3, quantity.Distance[system].Text(985e3)},
			{u.pad, 5.23e-3, quantity.Pad[system].Text(5.23e-3)},
			{u.thickness, 0.02341, quantity.Thickness[system].Text(0.02341)},
			{u.fuel, 0.0482, quantity.Fuel[system].Text(0.0482)},
			{u.oil, 0.0043, quantity.OilFill[system].Text(0.0043)},
			{u.trunk, 0.18, quantity.Boot[system].Text(0.18)},
			{u.mass, 90, quantity.Weight[system].Text(90)},
		} {
			got := rounded(c.unit, c.si) + " " + c.unit.name
			if got != c.want {
				t.Errorf("%s: %q, terminal %q", system, got, c.want)
			}
		}
		if got, want := rounded(u.heat, 638)+" "+u.heat.name[2:], quantity.Heat[system].Text(638); got != want {
			t.Errorf("%s: %q, terminal %q", system, got, want)
		}
	}
	// 8/32 in is a quarter of an inch
	if got := unitsOf(quantity.US).tread.of(0.0254 / 4); math.Abs(got-8) > 1e-12 {
		t.Errorf("a quarter of an inch of tread is %v/32", got)
	}
}

// rounded is the lower end of a band, which has the cell's digits.
func rounded(u unit, si float64) string {
	b := u.band(plan.Band{P5: si, P95: si})
	return b[:len(b)/2-2]
}

// TestRunningText: the head of a page shows a trip's name of 60 characters whole
// and cuts a longer one; a "&" in it stays one and begins no code.
func TestRunningText(t *testing.T) {
	just := strings.Repeat("ü", 60)
	for name, want := range map[string]string{
		just: just, just + "ü": just[:2*59] + "…", "Salt & Sons": "Salt && Sons", "": "",
	} {
		if got := runningText(name); got != want {
			t.Errorf("%q: %q, want %q", name, got, want)
		}
	}
}

func TestTextIsNeverAnError(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "text")
		got := text(look{}, s).value.(string)
		if len(got) > 0 && got[0] == '#' {
			t.Errorf("%q became %q", s, got)
		}
	})
}

// TestFigures: a cell keeps a dozen figures, a whole number all of them up to
// 100,000 million.
func TestFigures(t *testing.T) {
	for _, c := range []struct {
		v    float64
		n    int
		want float64
	}{
		{1.0 / 3, 12, 0.333333333333},
		{-123456.7890123456, 12, -123456.789012},
		{1234567, 3, 1234567},
		{99999999999, 3, 99999999999},
		{123456789012, 6, 123457000000},
		{-123456789012, 6, -123457000000},
		{0, 12, 0},
	} {
		if got := expr.Figures(c.v, c.n); got != c.want {
			t.Errorf("%d figures of %v: %v, want %v", c.n, c.v, got, c.want)
		}
	}
}

// TestTablesAreRectangles: every heading of the Rates sheet's tables is as wide as
// its sheet, also where the last legs are fewer than a block holds; the spreads
// have as many cells as their heading; no cell is joined with none.
func TestTablesAreRectangles(t *testing.T) {
	for _, p := range []*plan.Plan{juniper(t), driving(t, 1), driving(t, 2), driving(t, 10)} {
		found := 0
		for _, s := range layOut(p, quantity.Metric).sheets {
			for _, m := range s.merges {
				if m.b <= m.a {
					t.Errorf("%d legs, %s row %d: one cell joined with none, which a spreadsheet takes for damage", len(p.Legs), s.name, m.row)
				}
			}
			for i, r := range s.rows {
				if table := tablesOf(s); s.name == "Rates" && i > table[0][0] && i <= table[0][1] {
					if n := len(s.rows[table[0][0]+1].cells); len(r.cells) != n || n > len(s.widths) {
						t.Errorf("%d legs, row %d of the spreads: %d cells under %d heads, %d columns", len(p.Legs), i+1, len(r.cells), n, len(s.widths))
					}
				}
				if len(r.cells) < 2 || s.name != "Rates" || r.cells[1].value != "Point" {
					continue
				}
				found++
				if len(r.cells) != len(s.widths) {
					t.Errorf("%d legs, %s row %d: %d cells, the sheet has %d columns", len(p.Legs), s.name, i+1, len(r.cells), len(s.widths))
				}
			}
		}
		if found < 4 {
			t.Errorf("%d tables of rates", found)
		}
	}
}

// TestPoints: the wheels stand in the order of the columns, however a plan lists
// them, and nothing else stands among them.
func TestPoints(t *testing.T) {
	v := view{Plan: &plan.Plan{Sets: []plan.Set{
		{Kind: profiles.Tire, Points: []plan.Point{{Place: "RR", Measure: kind.Tread}, {Place: "LR", Measure: kind.Tread}, {Place: "LR"}}},
		{Kind: profiles.Pads, Points: []plan.Point{{Place: "LF", Measure: kind.PadLining}}},
		{Kind: profiles.Tire, Points: []plan.Point{{Place: "RF", Measure: kind.Tread}, {Place: "LF", Measure: kind.Tread}}},
	}}}
	got := v.points(kind.Tread)
	if len(got) != len(columns) {
		t.Fatalf("%d points: %+v", len(got), got)
	}
	for i, p := range got {
		if p.Place != columns[i] || p.Measure != kind.Tread {
			t.Errorf("column %d: %+v, want %s", i+1, p, columns[i])
		}
	}
}
