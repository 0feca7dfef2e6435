package report

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// TestFold: a line holds 80 characters and not one more; further lines stand
// under the first one's text; a word longer than a line stands by itself.
func TestFold(t *testing.T) {
	word := func(n int) string { return strings.Repeat("é", n) }
	for _, c := range []struct {
		what, lead, text string
		want             []string
	}{
		{"fills the line", "a: ", word(38) + "  " + word(38), []string{"a: " + word(38) + " " + word(38)}},
		{"one too many", "a: ", word(38) + " " + word(39), []string{"a: " + word(38), "   " + word(39)}},
		{"fills the second line", "", word(80) + " " + word(40) + " " + word(39) + " b", []string{word(80), word(40) + " " + word(39), "b"}},
		{"too long for any", "a: ", word(90) + " b", []string{"a: " + word(90), "   b"}},
		{"no text", "a:", "", []string{"a:"}},
	} {
		var b bytes.Buffer
		p := newPrinter(&b, quantity.US)
		p.fold(c.lead, c.text)
		p.Flush()
		if diff := cmp.Diff(c.want, strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.what, diff)
		}
	}
}

// TestNarrow: the width is the printer's, for prose and for tables.
func TestNarrow(t *testing.T) {
	var b bytes.Buffer
	p := newPrinter(&b, quantity.US)
	p.width = 40
	p.fold("- ", strings.Repeat("word ", 12))
	p.Flush()
	for line := range strings.Lines(b.String()) {
		if n := len(strings.TrimSpace(line)); n > 40 || strings.Count(b.String(), "\n") != 2 {
			t.Errorf("%d columns: %s", n, line)
		}
	}
	if got := p.legsShown(make([]plan.Leg, 9)); len(got) != 1 || got[0] != 8 {
		t.Errorf("legs %v in 40 columns", got)
	}
}

// TestCutAndPad count the columns of a terminal, not bytes or code points: an
// ideograph takes two (Unicode Standard Annex 11), a combining accent none (as terminals do).
func TestCutAndPad(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{cut("Zürich", 6), "Zürich"}, {cut("Zürich", 5), "Züri…"}, {cut("Zürich", 1), "…"}, {cut("", 3), ""},
		{pad("Zü", 4), "Zü  "}, {pad("Zürich", 4), "Zürich"}, {pad("Züri", 4), "Züri"},
		{pad("車", 4), "車  "}, {padLeft("e\u0301", 2), " e\u0301"}, {cut("車庫前", 5), "車庫…"}, {padLeft("Zü", 4), "  Zü"}, {padLeft("Zürich", 4), "Zürich"}, {padLeft("Züri", 4), "Züri"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

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
	room := len(newPrinter(nil, quantity.US).legsShown(legs(strings.Repeat("r", 1) + strings.Repeat("c", 40))))
	if w := labelWidth + 6 + room*cellWidth + chanceText; w > width || w+cellWidth <= width {
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
		if diff := cmp.Diff(c.want, newPrinter(nil, quantity.US).legsShown(legs(c.kinds))); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.what, diff)
		}
	}
}

// TestTable: the header stands over its cells; bands have a line of their own
// where there are any.
func TestTable(t *testing.T) {
	var b bytes.Buffer
	p := newPrinter(&b, quantity.US)
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
