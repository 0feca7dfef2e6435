package logbook

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/tripwear/profiles/nearest"
)

// Limits on a logbook.
const (
	mostBytes = 32 << 20
	mostRows  = 200_000
)

// MostFaults is how many faults of one kind are told at once: the rest is more
// of the same.
const MostFaults = 50

// Log is a logbook as read.
type Log struct {
	Entries []Entry // in the order of the file
	Torn    string  // a last row that was never finished writing; it is not in Entries
	layout  layout
	good    int64 // bytes up to where whole rows end
	ended   bool  // they end with a line break
}

// layout is how a file is written: its separator and the order of its columns.
type layout struct {
	comma   rune
	columns []string // "" for a column without a name
	bom     bool
	crlf    bool
}

var usual = layout{comma: ',', columns: Columns}

// Read reads a logbook. It takes commas, semicolons or tabs between the
// fields, any order of the columns, quotes, a byte order mark and either kind
// of line break, and skips empty rows. All faults are reported at once, up to
// fifty. A last row that was cut off in writing is no fault: it is Torn.
func Read(r io.Reader) (Log, []Fault) {
	log, faults := ReadPart(r)
	if len(faults) == 0 {
		_, faults = Live(log.Entries)
	}
	return log, faults
}

// ReadPart reads rows whose first ones may stand elsewhere: it leaves open
// whether those that rows take back are there.
func ReadPart(r io.Reader) (Log, []Fault) {
	data, err := io.ReadAll(io.LimitReader(r, mostBytes+1))
	switch {
	case err != nil:
		return Log{}, []Fault{{What: err.Error(), Expected: "a file that can be read"}}
	case len(data) > mostBytes:
		return Log{}, []Fault{{What: fmt.Sprintf("the file is larger than %d MiB", mostBytes>>20), Expected: "a logbook of one car"}}
	}
	return parse(data)
}

func parse(data []byte) (Log, []Fault) {
	log := Log{layout: usual, ended: true}
	body := bytes.TrimPrefix(data, []byte("\ufeff"))
	skipped := int64(len(data) - len(body))
	if f := encoding(body); f != nil {
		return log, []Fault{*f}
	}
	if len(bytes.TrimSpace(body)) == 0 {
		log.layout.columns = nil
		return log, nil
	}
	if !bytes.ContainsRune(body, '\n') && strings.HasPrefix(strings.Join(Columns, ","), string(body)) {
		log.Torn, log.layout.columns = string(body), nil // cut off within the header of a new file
		return log, nil
	}
	log.layout.bom = skipped > 0
	log.layout.crlf = bytes.Contains(body, []byte("\r\n"))
	log.layout.comma = separator(body)
	c := &reader{csv: csv.NewReader(bytes.NewReader(body)), log: &log, body: body, skipped: skipped}
	c.csv.Comma, c.csv.FieldsPerRecord, c.csv.ReuseRecord = log.layout.comma, -1, true
	if c.header() {
		for c.row() {
		}
	}
	return log, c.faults
}

func encoding(body []byte) *Fault {
	if utf8.Valid(body) && !bytes.ContainsRune(body, 0) {
		return nil
	}
	line := 1
	for rest := body; len(rest) > 0; {
		i := bytes.IndexByte(rest, '\n')
		if i < 0 {
			i = len(rest) - 1
		}
		if !utf8.Valid(rest[:i+1]) || bytes.IndexByte(rest[:i+1], 0) >= 0 {
			break
		}
		rest, line = rest[i+1:], line+1
	}
	return &Fault{Line: line, Column: 1, What: "the line is not UTF-8 text", Expected: "UTF-8", Hint: "save the sheet as CSV with the character set UTF-8"}
}

// separator is the mark between fields: the one the header has most of.
func separator(body []byte) rune {
	head, _, _ := bytes.Cut(body, []byte("\n"))
	best, most := ',', bytes.Count(head, []byte(","))
	for _, r := range []rune{';', '\t'} {
		if n := bytes.Count(head, []byte(string(r))); n > most {
			best, most = r, n
		}
	}
	return best
}

// reshaped is a date or a number as a spreadsheet of some country shows it.
var reshaped = regexp.MustCompile(`^ *\d+[./,-]\d`)

type reader struct {
	csv     *csv.Reader
	log     *Log
	body    []byte
	skipped int64 // bytes before body
	number  int   // of the last row
	faults  []Fault
}

func (r *reader) header() bool {
	record, err := r.csv.Read()
	if err != nil {
		r.syntax(err)
		return false
	}
	var columns []string
	for i, h := range record {
		h = strings.ToLower(strings.TrimSpace(h))
		line, column := r.csv.FieldPos(i)
		switch {
		case h == "":
		case !slices.Contains(Columns, h):
			r.add(Fault{Line: line, Column: column, What: nearest.Unknown("column", h, Columns), Expected: nearest.OneOf(Columns), Hint: "the first row names the columns: " + strings.Join(Columns, ",")})
		case slices.Contains(columns, h):
			r.add(Fault{Line: line, Column: column, What: fmt.Sprintf("column %q is there twice", h), Expected: "each once"})
		}
		columns = append(columns, h)
	}
	for _, need := range []string{"date", "odometer", "what", "place", "zone", "value"} {
		if !slices.Contains(columns, need) && len(r.faults) == 0 {
			r.add(Fault{Line: 1, Column: 1, What: fmt.Sprintf("column %q is missing", need), Expected: strings.Join(Columns, ","), Hint: "the first row names the columns"})
		}
	}
	r.log.layout.columns = columns
	r.advance()
	return len(r.faults) == 0
}

// advance notes how far whole rows reach.
func (r *reader) advance() {
	end := r.csv.InputOffset()
	r.log.good = r.skipped + end
	r.log.ended = end > 0 && r.body[end-1] == '\n'
}

// row reads a row, and says whether there may be another.
func (r *reader) row() bool {
	from := r.csv.InputOffset()
	record, err := r.csv.Read()
	if errors.Is(err, io.EOF) || len(r.faults) >= MostFaults {
		return false
	}
	rest := r.body[from:]
	alone := r.csv.InputOffset() == int64(len(r.body)) && !bytes.ContainsRune(bytes.TrimLeft(rest, "\r\n"), '\n') // the last line, without its end
	if alone && (err != nil || len(record) < len(r.log.layout.columns)) {
		r.log.Torn = strings.TrimSpace(string(rest))
		return false
	}
	if err != nil {
		r.syntax(err)
		return true
	}
	defer r.advance()
	if !slices.ContainsFunc(record, func(s string) bool { return strings.TrimSpace(s) != "" }) {
		return true
	}
	line, _ := r.csv.FieldPos(0)
	fields := Row{}
	for i, v := range record {
		if i >= len(r.log.layout.columns) {
			if strings.TrimSpace(v) != "" {
				l, c := r.csv.FieldPos(i)
				r.add(Fault{Line: l, Column: c, What: fmt.Sprintf("the row has %d fields, the header %d", len(record), len(r.log.layout.columns)), Expected: "a field for each column", Hint: "put quotes around text that holds a comma, and write decimals with a point"})
				return true
			}
			continue
		}
		if name := r.log.layout.columns[i]; name != "" {
			fields[name] = v
		} else if strings.TrimSpace(v) != "" {
			l, c := r.csv.FieldPos(i)
			r.add(Fault{Line: l, Column: c, What: fmt.Sprintf("%q stands in a column without a name", nearest.Cut(v)), Expected: "a name in the first row"})
		}
	}
	if len(r.log.Entries) == mostRows {
		r.add(Fault{Line: line, Column: 1, What: fmt.Sprintf("the logbook has more than %d rows", mostRows), Expected: "the rows of one car"})
		return false
	}
	e, faults := Parse(fields)
	r.number++
	e.Line, e.Number = line, r.number
	if halves := r.halves(record); len(faults) > 0 && halves != "" {
		i := slices.Index(r.log.layout.columns, "value")
		l, c := r.csv.FieldPos(i)
		r.add(Fault{Line: l, Column: c, What: fmt.Sprintf("the value is cut in two at a decimal comma: %q", halves), Expected: "a decimal point", Hint: "write 6.8 mm, and format the column as text so that the spreadsheet leaves it alone"})
		return true
	}
	for _, f := range faults {
		f.Line, f.Column = line, 1
		if i := slices.Index(r.log.layout.columns, f.Field); i >= 0 && i < len(record) {
			f.Line, f.Column = r.csv.FieldPos(i)
			if f.Hint == "" && reshaped.MatchString(record[i]) {
				f.Hint = "if a spreadsheet changed it, format the column as text, so that it is left alone"
			}
		}
		r.add(f)
	}
	if len(faults) == 0 {
		r.log.Entries = append(r.log.Entries, e)
	}
	return true
}

// halves is a value that a decimal comma without quotes has cut in two.
func (r *reader) halves(record []string) string {
	i := slices.Index(r.log.layout.columns, "value")
	if i+1 >= len(record) || record[i+1] == "" || record[i] == "" || r.log.layout.comma != ',' {
		return ""
	}
	first, second := strings.TrimSpace(record[i]), strings.TrimSpace(record[i+1])
	if strings.Trim(first, "0123456789-") != "" || strings.Trim(second[:min(1, len(second))], "0123456789") != "" {
		return ""
	}
	return first + "," + second
}

func (r *reader) add(f Fault) { r.faults = append(r.faults, f) }

func (r *reader) syntax(err error) {
	f := Fault{What: "not readable as CSV: " + err.Error(), Hint: `put quotes around text that holds a comma or a quote, and double the quote: "a ""b"" c"`}
	var p *csv.ParseError
	if errors.As(err, &p) {
		f.Line, f.Column, f.What = p.Line, p.Column, "not readable as CSV: "+p.Err.Error()
	}
	r.add(f)
}

// Given is a row of a table that is no file of text, such as a sheet's.
type Given struct {
	Line   int
	Fields Row
	Column map[string]int // where each field stands
}

// Of is the logbook of such rows, with all faults, up to fifty.
func Of(rows []Given) (log Log, faults []Fault) {
	for i, row := range rows {
		e, wrong := Parse(row.Fields)
		e.Line, e.Number = row.Line, i+1
		log.Entries = append(log.Entries, e)
		for _, f := range wrong {
			f.Line, f.Column = row.Line, max(1, row.Column[f.Field])
			faults = append(faults, f)
		}
		if len(faults) >= MostFaults {
			return log, faults
		}
	}
	if len(faults) == 0 {
		_, faults = Live(log.Entries)
	}
	return log, faults
}
