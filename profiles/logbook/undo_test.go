package logbook

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Rows that take rows back, by their numbers: which are live, and what is wrong.
func TestLive(t *testing.T) {
	const pad, hub = "2027-04-18,1 mi,pad,RF,,6 mm,,\n", "2027-04-18,2 mi,hub,RF,,play,,\n"
	back := func(odometer, n string) string { return "2027-04-19," + odometer + " mi,taken back,,," + n + ",,\n" }
	for _, c := range []struct {
		rows string
		live []int
		want string
	}{
		{pad + hub, []int{1, 2}, ""},
		{pad + hub + back("2", "2"), []int{1}, ""},
		{pad + "\n" + hub + back("2", "2"), []int{1}, ""}, // an empty row has no number
		{pad + back("1", "1") + back("1", "2"), []int{1}, ""},
		{pad + back("1", "1") + back("1", "2") + back("1", "1"), nil, ""},
		{pad + back("1", "1") + back("1", "2") + back("1", "3"), nil, ""},
		{pad + hub + back("1", "1") + back("1", "1"), []int{2}, ""},
		{pad + back("1", "9"), nil, "there is no row 9 to take back"},
		{pad + back("1", "2"), nil, "row 2 takes back row 2, which does not stand before it"},
		{back("1", "2") + pad, nil, "row 1 takes back row 2, which does not stand before it"},
		{hub + pad + back("1", "1"), nil, "row 3 takes back row 1 at 1 mi, which is at 2 mi"},
		{pad + back("1", "0"), nil, `"0" is not the number of a row`},
		{pad + back("1", "x"), nil, `"x" is not the number of a row`},
		{pad + back("1", ""), nil, "taken back: no row named"},
	} {
		log, faults := Read(strings.NewReader(header + c.rows))
		var said []string
		for _, f := range faults {
			said = append(said, f.What)
		}
		if got := strings.Join(said, "; "); got != c.want {
			t.Errorf("%q: %q, want %q", c.rows, got, c.want)
		}
		if c.want != "" {
			continue
		}
		var live []int
		rows, _ := Live(log.Entries)
		for _, e := range rows {
			live = append(live, e.Number)
		}
		if !slices.Equal(live, c.live) {
			t.Errorf("%q: live %v, want %v", c.rows, live, c.live)
		}
	}
}

// A row that is taken back is dead, whatever came before; to take that back
// gives what was live before, exactly.
func TestUndoneTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var rows []Entry
		for i := range rapid.IntRange(1, 10).Draw(t, "rows") {
			rows = append(rows, Entry{What: Odometer, Number: i + 1})
		}
		undo := func(n int) map[int]int {
			e := rows[n-1].TakeBack(rows[n-1].Date, "")
			e.Number = len(rows) + 1
			rows = append(rows, e)
			by, faults := Undone(rows)
			if len(faults) > 0 || by[n] == 0 {
				t.Fatalf("row %d lives: %+v", n, faults)
			}
			return by
		}
		by := map[int]int{}
		for range rapid.IntRange(0, 20).Draw(t, "undone") {
			if n := rapid.IntRange(1, len(rows)).Draw(t, "which"); by[n] == 0 {
				by = undo(n)
			}
		}
		n := rapid.IntRange(1, len(rows)).Draw(t, "last")
		if by[n] > 0 {
			return
		}
		before, _ := Live(rows)
		undo(n)
		undo(len(rows))
		if after, _ := Live(rows); !slices.EqualFunc(before, after, func(a, b Entry) bool { return a.Number == b.Number }) {
			t.Fatalf("%d rows live, before %d", len(after), len(before))
		}
	})
}
