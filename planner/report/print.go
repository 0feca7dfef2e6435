package report

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"github.com/mattn/go-runewidth"

	"example.com/tripwear/profiles/quantity"
)

// width is that of a terminal that is not asked for its own.
const width = 80

// printer writes lines in a system of units, folding prose at its width.
type printer struct {
	*bufio.Writer
	width int
	units quantity.System
}

func newPrinter(w io.Writer, units quantity.System) printer {
	return printer{bufio.NewWriter(w), width, units}
}

func (p printer) line(format string, a ...any) {
	s := fmt.Sprintf(format, a...)
	p.WriteString(strings.TrimRight(s, " "))
	p.WriteByte('\n')
}

// head starts a section.
func (p printer) head(title string) {
	p.line("\n%s", strings.ToUpper(title))
}

// fold writes text after a lead, every further line indented as far as the
// first one's text starts.
func (p printer) fold(lead, text string) {
	indent := terminal.StringWidth(lead)
	line, length := lead, indent
	for _, word := range strings.Fields(p.units.Words(text)) {
		n := terminal.StringWidth(word)
		if length > indent && length+1+n > p.width {
			p.line("%s", line)
			line, length = strings.Repeat(" ", indent), indent
		}
		if length > indent {
			line, length = line+" ", length+1
		}
		line, length = line+word, length+n
	}
	p.line("%s", line)
}

// note folds a formatted text two columns in.
func (p printer) note(format string, a ...any) { p.fold("  ", fmt.Sprintf(format, a...)) }

// lead is the word before a sentence of an answer.
func lead(word string) string { return "  " + pad(word, 9) }

// say folds a sentence of an answer after its word.
func (p printer) say(word, text string) { p.fold(lead(word), text) }

// list folds each line after the same lead.
func (p printer) list(lead string, lines []string) {
	for _, l := range lines {
		p.fold(lead, l)
	}
}

// section is a heading with a list; nothing where there are no lines.
func (p printer) section(title, lead string, lines []string) {
	if len(lines) > 0 {
		p.head(title)
		p.list(lead, lines)
	}
}

func (p printer) distance(m float64) string { return quantity.Distance[p.units].Text(m) }

// warmth is a difference of temperatures.
func (p printer) warmth(k float64) string { return quantity.Warmth[p.units].Text(k) }

// joined is one text of many things, a comma between them.
func joined[T any](things []T, text func(T) string) string {
	each := make([]string, len(things))
	for i, t := range things {
		each[i] = text(t)
	}
	return strings.Join(each, ", ")
}

// count is a number of things.
func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// percent is a share in whole percent.
func percent(share float64) string { return fmt.Sprintf("%.0f %%", 100*share) }

// terminal counts the columns that text takes, in no locale.
var terminal = &runewidth.Condition{}

// cut shortens text to n columns, marking what is gone.
func cut(s string, n int) string { return terminal.Truncate(s, n, "…") }

// pad fills text to n columns.
func pad(s string, n int) string { return terminal.FillRight(s, n) }

// padLeft fills text to n columns from the left.
func padLeft(s string, n int) string { return terminal.FillLeft(s, n) }
