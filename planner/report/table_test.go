package report

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
)

// TestColumns: all legs but stops where they fit, otherwise circuit days and
// the last leg, otherwise the last of those; the widest table fits 80 columns
// and would not with a leg more.
func TestColumns(t *testing.T) {
	legs := func(kinds string) (out []plan.Leg) {
		for _, k := range kinds {
			out = append(out, plan.Leg{Kind: map[rune]profiles.LegKind{'r': profiles.RoadLeg, 'c': profiles.CircuitLeg, 's': profiles.StopLeg}[k]})
		}
		return out
	}
	room := len(newPrinter(nil, View{}).legsShown(legs(strings.Repeat("r", 1) + strings.Repeat("c", 40))))
	if w := labelWidth + 6 + room*cellWidth + chanceText; w > page.Usual || w+cellWidth <= page.Usual {
		t.Errorf("%d legs take %d characters", room, w)
	}
	last := func(n, of int) (out []int) {
		for j := of - n; j < of; j++ {
			out = append(out, j)
		}
		return out
	}
	for _, c := range []struct {
		what, kinds string
		want        []int
	}{
		{"a few", "rcsr", []int{0, 1, 3}},
		{"just as many as fit", strings.Repeat("r", room), last(room, room)},
		{"one too many", "rcc" + strings.Repeat("r", room-2), []int{1, 2, room}},
		{"too many days", strings.Repeat("c", room+3), last(room, room+3)},
		{"a stop takes no room", "s" + strings.Repeat("r", room), last(room, room+1)},
	} {
		if diff := cmp.Diff(c.want, newPrinter(nil, View{}).legsShown(legs(c.kinds))); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.what, diff)
		}
	}
}

// TestTable: the header stands over its cells; bands have a line of their own
// where there are any.
func TestTable(t *testing.T) {
	var b bytes.Buffer
	p := newPrinter(&b, View{})
	p.table([]int{0, 3}, []levels{
		{label: "LF inside", now: "7.0", median: []string{"6.5", "5.1"}, band: []string{"6-7", ""}, chance: "3 %"},
		{label: "RF", now: "1", median: []string{"2", "3"}, chance: "-"},
	})
	p.Flush()
	lines := strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")
	if len(lines) != 4 {
		t.Fatalf("%d lines:\n%s", len(lines), b.String())
	}
	end := func(line, word string) int {
		i := strings.Index(line, word)
		if i < 0 {
			t.Fatalf("no %q in %q", word, line)
		}
		return utf8.RuneCountInString(line[:i] + word)
	}
	first, second := labelWidth+6+cellWidth, labelWidth+6+2*cellWidth
	for _, c := range []struct {
		line, word string
		at         int
	}{
		{lines[0], "now", labelWidth + 6}, {lines[0], "leg 1", first}, {lines[0], "leg 4", second}, {lines[0], "limit", second + chanceText},
		{lines[1], "7.0", labelWidth + 6}, {lines[1], "6.5", first}, {lines[1], "5.1", second}, {lines[1], "3 %", second + chanceText},
		{lines[2], "6-7", first}, {lines[3], "2", first}, {lines[3], "-", second + chanceText},
	} {
		if got := end(c.line, c.word); got != c.at {
			t.Errorf("%q ends in column %d, want %d, of %q", c.word, got, c.at, c.line)
		}
	}
}
