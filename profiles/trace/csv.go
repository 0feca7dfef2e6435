package trace

import (
	"bufio"
	"encoding/csv"
	"errors"
	"io"
	"strings"
)

// readCSV reads a table: a header, then a row a fix or a point. With lat, lon
// and time it is a recording, with lat and lon or x and y alone the line of a
// map, which may have widths. The columns stand in any order with others
// between them; the header or a row below it gives the unit where there is a
// choice. Times are seconds, dates with times, or clock times, which may go
// past midnight. Cells are set apart by commas, semicolons or tabs, numbers may
// have decimal commas; a row without a place is a lost fix; lines that begin
// with # are remarks.
func readCSV(r io.Reader, most bounds) (*File, error) {
	b := bufio.NewReaderSize(most.limit(r, '\n'), 64<<10)
	c := csvReader{builder: builder{bounds: most}}
	var err error
	if c.header, err = findHeader(b); err != nil {
		return nil, c.syntax(err)
	}
	c.r = csv.NewReader(b)
	c.r.ReuseRecord = true
	c.r.Comment = '#'
	c.r.TrimLeadingSpace = c.comma != '\t'
	c.r.FieldsPerRecord = -1
	c.r.Comma = c.comma
	if err := c.rows(); err != nil {
		return nil, c.syntax(err)
	}
	c.sparse()
	return c.done("CSV")
}

type csvReader struct {
	builder
	*header
	r      *csv.Reader
	row    []string // in hand
	date   string   // of the row before, as written
	blanks int      // rows without a place
}

// rows reads what stands below the header.
func (c *csvReader) rows() error {
	for first := true; ; first = false {
		row, err := c.r.Read()
		if errors.Is(err, io.EOF) && !first {
			return nil
		}
		if err != nil && !errors.Is(err, io.EOF) {
			return err
		}
		c.row = row
		if first {
			units := c.units(row)
			if bad := c.settle(); bad != nil {
				return bad
			}
			for _, text := range c.left {
				c.note(c.header.line, "%s", text)
			}
			if c.places() == plane || !c.has(timeColumn) {
				if bad := c.builder.line("", c.places() == plane); bad != nil {
					return bad
				}
			}
			if units {
				continue
			}
		}
		if len(row) == 0 || len(row) == 1 && strings.TrimSpace(row[0]) == "" {
			continue
		}
		if bad := c.take(); bad != nil {
			if bad.Line == 0 {
				at, column := c.r.FieldPos(0)
				bad.Line, bad.Column = at+c.header.line, column
			}
			return bad
		}
	}
}

func (c *csvReader) bad(k kind, what, expected string) *Error {
	line, column := c.r.FieldPos(max(0, min(c.columns[k].at, len(c.row)-1)))
	return &Error{line + c.header.line, column, what, expected, ""}
}

// syntax says why there is no table.
func (c *csvReader) syntax(err error) *Error {
	var bad *Error
	var wrong *csv.ParseError
	switch {
	case errors.As(err, &bad):
		return bad
	case c.stopped(err) != nil:
		return c.stopped(err)
	case errors.As(err, &wrong):
		return &Error{wrong.Line + c.header.line, wrong.Column, "not readable as CSV: " + wrong.Err.Error(), "", ""}
	}
	return &Error{What: "not readable: " + short(err.Error())}
}
