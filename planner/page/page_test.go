package page

import (
	"bytes"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
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
		p := New(&b, View{})
		p.Fold(c.lead, c.text)
		p.Flush()
		if diff := cmp.Diff(c.want, strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.what, diff)
		}
	}
}

// TestNarrow: the width is the printer's, for prose and for tables.
func TestNarrow(t *testing.T) {
	var b bytes.Buffer
	p := New(&b, View{})
	p.Width = 40
	p.Fold("- ", strings.Repeat("word ", 12))
	p.Flush()
	for line := range strings.Lines(b.String()) {
		if n := len(strings.TrimSpace(line)); n > 40 || strings.Count(b.String(), "\n") != 2 {
			t.Errorf("%d columns: %s", n, line)
		}
	}
}

// TestCutAndPad count the columns of a terminal, not bytes or code points: an
// ideograph takes two (Unicode Standard Annex 11), a combining accent none (as terminals do).
func TestCutAndPad(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{Cut("Zürich", 6), "Zürich"}, {Cut("Zürich", 5), "Züri…"}, {Cut("Zürich", 1), "…"}, {Cut("", 3), ""},
		{Pad("Zü", 4), "Zü  "}, {Pad("Zürich", 4), "Zürich"}, {Pad("Züri", 4), "Züri"},
		{Pad("車", 4), "車  "}, {PadLeft("e\u0301", 2), " e\u0301"}, {Cut("車庫前", 5), "車庫…"}, {PadLeft("Zü", 4), "  Zü"}, {PadLeft("Zürich", 4), "Zürich"}, {PadLeft("Züri", 4), "Züri"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

// TestTableNarrow: a table too wide for the page is told as a list, every cell with
// its head; one that fits stays a table, its last long cell folded.
func TestTableNarrow(t *testing.T) {
	for width, want := range map[int]string{
		80: "set                             used  due\nfront pads                      41 %  " + strings.TrimRight(strings.Repeat("soon ", 8), " ") + "\n" + strings.Repeat(" ", 26) + "soon soon soon soon\n",
		40: "  front pads: used 41 %, due soon soon\n" + strings.Repeat("  soon soon soon soon soon soon soon\n", 1) + "  soon soon soon\n",
	} {
		var b bytes.Buffer
		table := New(&b, View{Width: width}).Table(Columns{-30, 6, 2, 0}, "set", "used", "", "due")
		table.Row("front pads", "41 %", "", strings.TrimSpace(strings.Repeat("soon ", 12)))
		table.Flush()
		if diff := cmp.Diff(want, b.String()); diff != "" {
			t.Errorf("%d columns (-want +got):\n%s", width, diff)
		}
	}
}
