package report

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"github.com/mattn/go-runewidth"
)

// width is that of a terminal that is not asked for its own.
const width = 80

// printer writes lines, folding prose at its width.
type printer struct {
	*bufio.Writer
	width int
}

func newPrinter(w io.Writer) printer { return printer{bufio.NewWriter(w), width} }

func (p printer) line(format string, a ...any) {
	s := fmt.Sprintf(format, a...)
	p.WriteString(strings.TrimRight(s, " "))
	p.WriteByte('\n')
}

// head starts a section.
func (p printer) head(title string) {
	p.line("")
	p.line("%s", strings.ToUpper(title))
}

// fold writes text after a lead, every further line indented as far as the
// first one's text starts.
func (p printer) fold(lead, text string) {
	indent := terminal.StringWidth(lead)
	line, length := lead, indent
	for _, word := range strings.Fields(text) {
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

// terminal counts the columns that text takes, in no locale.
var terminal = &runewidth.Condition{}

// cut shortens text to n columns, marking what is gone.
func cut(s string, n int) string { return terminal.Truncate(s, n, "…") }

// pad fills text to n columns.
func pad(s string, n int) string { return terminal.FillRight(s, n) }

// padLeft fills text to n columns from the left.
func padLeft(s string, n int) string { return terminal.FillLeft(s, n) }
