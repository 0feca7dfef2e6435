package page

import "strings"

// Columns are the widths of a table's columns: text stands to the right, or,
// where the width is negative, to the left and is cut. 0 takes all its text.
type Columns []int

// Fit is the width of a column that is n wide at 80 columns and takes what the
// page has more, or gives what it has less.
func (p Page) Fit(n int) int { return max(8, n+p.Width-Usual) }

// Table is a table in the making.
type Table struct {
	Page
	widths Columns
	heads  []string
	list   bool // too wide for the page: each row is told as a list
}

// Table begins a table with its heads. What is in the last column of width 0 may
// be long, and is folded.
func (p Page) Table(widths Columns, heads ...string) *Table {
	t := &Table{Page: p, widths: widths, heads: heads}
	for i, n := range widths {
		if n == 0 && i < len(heads) {
			n = len(heads[i])
		}
		t.list = t.list || total(widths[:i])+abs(n) > p.Width
	}
	if !t.list && strings.Join(heads, "") != "" {
		t.Row(heads...)
	}
	return t
}

func total(widths Columns) (sum int) {
	for _, n := range widths {
		sum += abs(n)
	}
	return sum
}

func abs(n int) int { return max(n, -n) }

// Row writes a line of a table, or a list of its cells with their heads.
func (t *Table) Row(cells ...string) {
	if t.list {
		t.asList(cells)
		return
	}
	var b strings.Builder
	for i, c := range cells {
		switch n := t.widths[i]; {
		case n < 0:
			b.WriteString(Pad(Cut(c, -n), -n))
		case n > 0:
			b.WriteString(PadLeft(c, n))
		case n == 0:
			b.WriteString(c)
		}
	}
	line := strings.TrimRight(b.String(), " ")
	if last := len(cells) - 1; terminal.StringWidth(line) > t.Width && t.widths[last] == 0 {
		lead := strings.TrimSuffix(b.String(), cells[last])
		t.Fold(lead, cells[last])
		return
	}
	t.Line("%s", line)
}

// asList writes the first cell that says something, then the others with their heads.
func (t *Table) asList(cells []string) {
	label := ""
	var rest []string
	for i, c := range cells {
		c = strings.TrimSpace(c)
		head := ""
		if i < len(t.heads) {
			head = strings.TrimSpace(t.heads[i])
		}
		switch {
		case c == "":
		case label == "":
			label = c
		case label != "":
			rest = append(rest, strings.TrimSpace(head+" "+c))
		}
	}
	if label != "" {
		t.Fold("  ", strings.TrimSuffix(label+": "+strings.Join(rest, ", "), ": "))
	}
}
