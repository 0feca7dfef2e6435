package terminal

import (
	"bytes"
	"io"
	"os"
	"strings"

	"example.com/tripwear/planner/page"
)

// Folded is stderr with its lines folded where it is a terminal, or COLUMNS is
// said. Elsewhere a line stays one, for who looks for it in a file.
func Folded(to io.Writer) io.Writer { return Fold(to, width(os.Stderr)) }

// Fold is a writer that folds lines at a width, if there is one.
func Fold(to io.Writer, width int) io.Writer {
	if width == 0 {
		return to
	}
	return folded{to, width}
}

type folded struct {
	to    io.Writer
	width int
}

// Write folds what are whole lines, or a question that waits for its answer.
func (f folded) Write(b []byte) (int, error) {
	var out bytes.Buffer
	p := page.New(&out, page.View{Width: f.width})
	for line := range strings.Lines(string(b)) {
		text := strings.TrimRight(line, "\n")
		if page.Wide(text) <= f.width {
			p.WriteString(line)
			continue
		}
		indent := len(text) - len(strings.TrimLeft(text, " "))
		lead, rest, _ := strings.Cut(text[indent:], " ")
		p.Wrap(text[:indent]+lead+" ", rest)
	}
	p.Flush()
	if end := b[len(bytes.TrimRight(b, " ")):]; len(end) > 0 && bytes.HasSuffix(out.Bytes(), []byte("\n")) {
		out.Truncate(out.Len() - 1)
		out.Write(end)
	}
	if _, err := f.to.Write(out.Bytes()); err != nil {
		return 0, err
	}
	return len(b), nil
}
