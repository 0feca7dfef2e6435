package trace

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
)

// column is where a value stands and what makes it SI.
type column struct {
	at     int     // -1 where there is none
	scale  float64 // 0 where no unit was given
	title  string  // as written
	column int     // of the title in its line
	wrong  *Error  // a unit that is none of the kind's
}

// header is the row that names the columns.
type header struct {
	comma   rune
	line    int
	columns [kinds]column
	speeds  []column
	found   int      // how many columns have a known name
	unread  []string // those that have none
	twice   *Error
	left    []string // what is left out, in words
}

// mostPreamble is how many lines may stand above the header.
const mostPreamble = 200

// findHeader reads to the first line that names the columns of a place. What
// stands before it is a preamble; it may itself be a remark.
func findHeader(b *bufio.Reader) (*header, error) {
	var near *header
	for line := 1; line <= mostPreamble; line++ {
		text, err := b.ReadString('\n')
		if err != nil && !errors.Is(err, io.EOF) {
			return nil, err
		}
		bare := strings.TrimLeft(text, " \t#")
		remark := strings.HasPrefix(strings.TrimSpace(text), "#")
		for _, comma := range []rune{';', '\t', ','} {
			if !strings.ContainsRune(bare, comma) {
				continue
			}
			h := newHeader(latin1(bare), len(text)-len(bare), line, comma)
			if h.places() != nothing {
				return h, nil
			}
			if !remark && (near == nil || h.found > near.found) {
				near = h
			}
		}
		if err != nil {
			break
		}
	}
	if near == nil || near.found == 0 {
		return nil, unknown("the file is of no format that is read")
	}
	return nil, near.missing()
}

func newHeader(text string, indent, line int, comma rune) *header {
	h := &header{comma: comma, line: line}
	for k := range h.columns {
		h.columns[k].at = -1
	}
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.LazyQuotes, r.TrimLeadingSpace = comma, true, comma != '\t'
	cells, _ := r.Read() // what it cannot take apart has no names
	for i, cell := range cells {
		k, unit, ok := heading(cell)
		if !ok {
			if title := strings.TrimSpace(cell); title != "" {
				h.unread = append(h.unread, fmt.Sprintf("%q", short(title)))
			}
			continue
		}
		_, at := r.FieldPos(i)
		c := column{at: i, title: strings.TrimSpace(cell), column: at + indent}
		if _, speed := columnWords[speedColumn].units[unit]; k == timeColumn && speed {
			k = speedColumn // "tempo" is time in Italian, and speed in German
		}
		if unit != "" {
			if c.scale, ok = columnWords[k].units[unit]; !ok {
				c.wrong = &Error{line, c.column, fmt.Sprintf("%s in %q", k, short(unit)), columnWords[k].like, ""}
			}
		}
		h.found++
		h.put(k, c)
	}
	return h
}

// put takes a column; of two of a kind the better is kept.
func (h *header) put(k kind, c column) {
	was := h.columns[k]
	switch {
	case k == speedColumn:
		h.speeds = append(h.speeds, c)
	case was.at < 0:
		h.columns[k] = c
	case k == latColumn || k == lonColumn || k == xColumn || k == yColumn:
		h.twice = &Error{h.line, c.column, fmt.Sprintf("a second column of %s", k), "one", "remove the other"}
	case k == timeColumn && was.scale == 0 && c.scale > 0:
		h.columns[k] = c
		h.leave("a second column of %s, %q", k, short(was.title))
	default:
		h.leave("a second column of %s, %q", k, short(c.title))
	}
}

func (h *header) leave(format string, args ...any) {
	h.left = append(h.left, fmt.Sprintf(format, args...)+": left out")
}

func (h *header) has(k kind) bool { return h.columns[k].at >= 0 }

// places is what the columns hold of a place.
func (h *header) places() placing {
	switch {
	case h.has(latColumn) && h.has(lonColumn):
		return earth
	case h.has(xColumn) && h.has(yColumn):
		return plane
	}
	return nothing
}

type placing int

const (
	nothing placing = iota
	earth           // lat and lon
	plane           // x and y
)
