// Package page writes text for a terminal of any width: prose is folded, tables
// too wide for it become lists.
package page

import (
	"bufio"
	"cmp"
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/mattn/go-runewidth"

	"example.com/tripwear/profiles/quantity"
)

// The columns that text is set in: those of what is no terminal, and the fewest.
const (
	Usual = 80
	Least = 40
)

// View is how a result is printed.
type View struct {
	Units quantity.System
	Width int // columns; Usual where it is 0
}

// Page writes lines in a system of units, folding prose at its width.
type Page struct {
	*bufio.Writer
	View
}

// New begins a page.
func New(w io.Writer, v View) Page {
	v.Width = max(Least, cmp.Or(v.Width, Usual))
	return Page{bufio.NewWriter(w), v}
}

// Line writes a line, or more where it is wider than the page.
func (p Page) Line(format string, a ...any) {
	s := strings.TrimRight(fmt.Sprintf(format, a...), " ")
	rest := strings.TrimLeft(s, " ")
	if indent := len(s) - len(rest); terminal.StringWidth(s) > p.Width && !strings.Contains(s, "\n") {
		p.Fold(s[:indent], rest)
		return
	}
	p.write(s)
}

func (p Page) write(s string) {
	p.WriteString(strings.TrimRight(s, " "))
	p.WriteByte('\n')
}

// Head starts a section.
func (p Page) Head(title string) {
	p.Line("")
	p.Line("%s", strings.ToUpper(title))
}

// Fold writes text after a lead, every further line indented as far as the
// first one's text starts, or less where the page is narrow.
func (p Page) Fold(lead, text string) { p.Wrap(lead, p.Units.Words(text)) }

// Wrap is Fold of a text whose words are its own.
func (p Page) Wrap(lead, text string) {
	indent := terminal.StringWidth(lead)
	line, length := lead, indent
	begun := false
	indent = min(indent, p.Width/3)
	for _, word := range strings.Fields(text) {
		n := terminal.StringWidth(word)
		space := 0
		if begun {
			space = 1
		}
		if (begun || length > indent) && length+space+n > p.Width {
			p.write(line)
			line, length, space = strings.Repeat(" ", indent), indent, 0
		}
		line, length, begun = line+strings.Repeat(" ", space)+word, length+space+n, true
	}
	p.write(line)
}

// Note folds a formatted text two columns in.
func (p Page) Note(format string, a ...any) { p.Fold("  ", fmt.Sprintf(format, a...)) }

// Lead is the word before a sentence of an answer.
func Lead(word string) string { return "  " + Pad(word, 9) }

// Tell folds a sentence of an answer after its word.
func (p Page) Tell(word, text string) { p.Fold(Lead(word), text) }

// List folds each line after the same lead.
func (p Page) List(lead string, lines []string) {
	for _, l := range lines {
		p.Fold(lead, l)
	}
}

// Section is a heading with a list; nothing where there are no lines.
func (p Page) Section(title, lead string, lines []string) {
	if len(lines) > 0 {
		p.Head(title)
		p.List(lead, lines)
	}
}

// Travel is a distance.
func (p Page) Travel(m float64) string { return quantity.Distance[p.Units].Text(m) }

// Warmth is a difference of temperatures.
func (p Page) Warmth(k float64) string { return quantity.Warmth[p.Units].Text(k) }

// Joined is one text of many things, a comma between them.
func Joined[T any](things []T, text func(T) string) string {
	each := make([]string, len(things))
	for i, t := range things {
		each[i] = text(t)
	}
	return strings.Join(each, ", ")
}

// Count is a number of things.
func Count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// Percent is a share in whole percent.
func Percent(share float64) string { return fmt.Sprintf("%.0f %%", 100*share) }

// Spread is a share with its deviation, where it has one.
func Spread(share, sd float64) string {
	if sd > 0 {
		return fmt.Sprintf("%.0f +- %.0f %%", 100*share, math.Max(1, math.Ceil(100*sd)))
	}
	return Percent(share)
}

// terminal counts the columns that text takes, in no locale.
var terminal = &runewidth.Condition{}

// Wide is how many columns text takes.
func Wide(s string) int { return terminal.StringWidth(s) }

// Cut shortens text to n columns, marking what is gone.
func Cut(s string, n int) string { return terminal.Truncate(s, n, "…") }

// Pad fills text to n columns.
func Pad(s string, n int) string { return terminal.FillRight(s, n) }

// PadLeft fills text to n columns from the left.
func PadLeft(s string, n int) string { return terminal.FillLeft(s, n) }

// Reflow writes text that was set in 80 columns: as it is where that fits,
// otherwise its paragraphs folded anew, and what is not prose line by line.
func (p Page) Reflow(text string) {
	var prose []string
	flush := func() {
		if len(prose) > 0 {
			p.Fold("", strings.Join(prose, " "))
		}
		prose = nil
	}
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, " \n")
		_, gap := columnAfterGap(line)
		if p.Width < Usual && line != "" && line[0] != ' ' && !gap && !strings.HasPrefix(line, "|") {
			prose = append(prose, line)
			continue
		}
		flush()
		if at, gap := columnAfterGap(line); gap && terminal.StringWidth(line) > p.Width {
			if at > p.Width/2 {
				p.Line("%s", line[:at])
				p.Fold("      ", line[at:])
			} else {
				p.Fold(line[:at], line[at:])
			}
			continue
		}
		p.Line("%s", line)
	}
	flush()
}

// columnAfterGap is where text goes on after a gap of two blanks or more, as in a
// list with its words before.
func columnAfterGap(line string) (at int, ok bool) {
	start := len(line) - len(strings.TrimLeft(line, " "))
	gap := strings.Index(line[start:], "  ")
	if gap < 0 {
		return 0, false
	}
	at = start + gap
	return at + len(line[at:]) - len(strings.TrimLeft(line[at:], " ")), true
}
