package sheet

import (
	"archive/zip"
	"bytes"
	"cmp"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Put is a cell to be filled. It has the look of the one that it was or, in a row
// that is new, of the one in the row Like or of the column.
type Put struct {
	Row, Column int
	Like        int
	Text        string
	Form        Form // Number, Text, or Day: a number where the look shows one as a day
}

// Add writes the workbook with cells filled that were empty, by sheet. All else
// is copied as it is, byte by byte.
func (b *Book) Add(w io.Writer, puts map[string][]Put) error {
	changed := map[string][]byte{}
	for _, name := range slices.Sorted(maps.Keys(puts)) {
		part, err := b.partOf(name)
		if err != nil {
			return told(err)
		}
		if changed[part], err = b.filled(part, puts[name]); err != nil {
			return told(err)
		}
	}
	out := zip.NewWriter(w)
	for _, f := range b.File {
		var err error
		if data, ok := changed[f.Name]; ok {
			header := &zip.FileHeader{Name: f.Name, Method: zip.Deflate, Modified: f.Modified}
			var part io.Writer
			if part, err = out.CreateHeader(header); err == nil {
				_, err = part.Write(data)
			}
		} else {
			err = out.Copy(f)
		}
		if err != nil {
			return err
		}
	}
	return out.Close()
}

// span is where an element stands in a part.
type span struct{ from, to int }

// place is a row or a cell of a part: its number, and where it stands.
type place struct {
	number int
	whole  span
	start  span // its opening tag
	style  string
	cells  []place // of a row
}

// outline is a sheet's part taken to pieces.
type outline struct {
	data      []byte
	prefix    string // of its elements' names
	dimension span
	sheetData span // its opening tag
	columns   []columns
	rows      []place
}

// columns are the look of some columns.
type columns struct {
	from, to int
	style    string
}

func (b *Book) filled(part string, puts []Put) ([]byte, error) {
	o := outline{}
	for _, f := range b.File {
		if f.Name != part {
			continue
		}
		if f.UncompressedSize64 > MostPart {
			return nil, errTooBig
		}
		r, err := f.Open()
		if err != nil {
			return nil, err
		}
		o.data, err = io.ReadAll(io.LimitReader(r, MostPart))
		if err = errors.Join(err, r.Close()); err != nil {
			return nil, err
		}
	}
	if o.data == nil {
		return nil, errMissing
	}
	if err := o.read(); err != nil {
		return nil, err
	}
	return o.fill(puts, b.formats)
}

// read finds the rows and cells.
func (o *outline) read() error {
	d := xml.NewDecoder(bytes.NewReader(o.data))
	depth, inRow := 0, false
	for {
		from := int(d.InputOffset())
		t, err := d.RawToken()
		if err == io.EOF {
			break
		}
		if err != nil {
			return err
		}
		at := span{from, int(d.InputOffset())}
		switch e := t.(type) {
		case xml.StartElement:
			depth++
			number, _ := strconv.Atoi(attribute(e, "r"))
			switch {
			case e.Name.Local == "dimension" && depth == 2:
				o.dimension = at
			case e.Name.Local == "col" && depth == 3:
				from, _ := strconv.Atoi(attribute(e, "min")) // 0 is none
				to, _ := strconv.Atoi(attribute(e, "max"))
				o.columns = append(o.columns, columns{from, to, attribute(e, "style")})
			case e.Name.Local == "sheetData" && depth == 2:
				o.sheetData, o.prefix = at, e.Name.Space
			case e.Name.Local == "row" && depth == 3:
				if number == 0 {
					number = 1
					if len(o.rows) > 0 {
						number = o.rows[len(o.rows)-1].number + 1
					}
				}
				o.rows, inRow = append(o.rows, place{number: number, whole: at, start: at}), true
			case e.Name.Local == "c" && depth == 4 && inRow:
				row := &o.rows[len(o.rows)-1]
				row.cells = append(row.cells, place{number: Column(attribute(e, "r")), whole: at, start: at, style: attribute(e, "s")})
			}
		case xml.EndElement:
			switch {
			case e.Name.Local == "row" && depth == 3:
				o.rows[len(o.rows)-1].whole.to, inRow = at.to, false
			case e.Name.Local == "c" && depth == 4 && inRow:
				row := &o.rows[len(o.rows)-1]
				row.cells[len(row.cells)-1].whole.to = at.to
			}
			depth--
		}
	}
	if o.sheetData.to == 0 {
		return errors.New("no sheet data")
	}
	return nil
}

// fill writes the part with cells put in.
func (o *outline) fill(puts []Put, formats []Form) ([]byte, error) {
	byRow := map[int][]Put{}
	most := span{1, 1} // the last row and column
	for _, p := range puts {
		byRow[p.Row] = append(byRow[p.Row], p)
		most = span{max(most.from, p.Row), max(most.to, p.Column)}
	}
	var out bytes.Buffer
	head := o.data[:o.sheetData.to]
	out.Write(o.dimensioned(head, most))
	if bytes.HasSuffix(head, []byte("/>")) { // a sheet without rows
		out.Truncate(out.Len() - 2)
		out.WriteString(">")
	}
	write := func(row place, given []Put) {
		start := o.tag("row", fmt.Sprintf(` r="%d"`, row.number))
		if row.start.to > 0 {
			start = strings.TrimSuffix(strings.TrimSuffix(string(o.data[row.start.from:row.start.to]), ">"), "/") + ">"
		}
		out.WriteString(start)
		cells := map[int]string{}
		for _, c := range row.cells {
			cells[c.number] = string(o.data[c.whole.from:c.whole.to])
		}
		for _, p := range given {
			cells[p.Column] = o.cell(p, formats)
		}
		for _, n := range slices.Sorted(maps.Keys(cells)) {
			out.WriteString(cells[n])
		}
		out.WriteString(o.tag("/row", ""))
	}
	at := o.sheetData.to
	missing := slices.Sorted(maps.Keys(byRow))
	for _, row := range o.rows {
		for len(missing) > 0 && missing[0] < row.number {
			write(place{number: missing[0]}, byRow[missing[0]])
			missing = missing[1:]
		}
		out.Write(o.data[at:row.whole.from])
		if given := byRow[row.number]; given != nil {
			write(row, given)
			missing = slices.DeleteFunc(missing, func(n int) bool { return n == row.number })
		} else {
			out.Write(o.data[row.whole.from:row.whole.to])
		}
		at = row.whole.to
	}
	for _, n := range missing {
		write(place{number: n}, byRow[n])
	}
	rest := o.data[at:]
	if bytes.HasSuffix(head, []byte("/>")) {
		out.WriteString(o.tag("/sheetData", ""))
	}
	out.Write(rest)
	return out.Bytes(), nil
}

func (o *outline) tag(name, rest string) string {
	end := ""
	if strings.HasPrefix(name, "/") {
		name, end = name[1:], "/"
	}
	if o.prefix != "" {
		name = o.prefix + ":" + name
	}
	return "<" + end + name + rest + ">"
}

// look is the style of a cell to be.
func (o *outline) look(p Put) (style string) {
	for _, c := range o.columns {
		if c.from <= p.Column && p.Column <= c.to {
			style = c.style
		}
	}
	for _, n := range []int{p.Like, p.Row} {
		for _, row := range o.rows {
			for _, c := range row.cells {
				if row.number == n && (c.number == p.Column || p.Row == 1) { // a heading is like its neighbor
					style = c.style
				}
			}
		}
	}
	return style
}

// cell is a cell in the look that it has.
func (o *outline) cell(p Put, formats []Form) string {
	style := o.look(p)
	shown := Number
	if i, err := strconv.Atoi(style); err == nil && i >= 0 && i < len(formats) {
		shown = formats[i]
	}
	rest := fmt.Sprintf(` r="%s%d"`, Letters(p.Column), p.Row)
	if style != "" {
		rest += ` s="` + style + `"`
	}
	var text bytes.Buffer
	_ = xml.EscapeText(&text, []byte(p.Text)) // a buffer takes all
	value := text.String()
	if p.Form == Day {
		day, err := time.Parse(time.DateOnly, p.Text)
		if err == nil && shown == Day {
			p.Form, value = Number, strconv.Itoa(Serial(day))
		}
	}
	if p.Form == Number {
		return o.tag("c", rest) + o.tag("v", "") + value + o.tag("/v", "") + o.tag("/c", "")
	}
	return o.tag("c", rest+` t="inlineStr"`) + o.tag("is", "") + o.tag("t", ` xml:space="preserve"`) + value + o.tag("/t", "") + o.tag("/is", "") + o.tag("/c", "")
}

var rangeForm = regexp.MustCompile(`ref="([A-Z]+)([0-9]+)(?::([A-Z]+)([0-9]+))?"`)

// dimensioned is a part's beginning whose dimension takes in a last row and column.
func (o *outline) dimensioned(head []byte, most span) []byte {
	if o.dimension.to == 0 {
		return head
	}
	tag := string(head[o.dimension.from:o.dimension.to])
	m := rangeForm.FindStringSubmatch(tag)
	if m == nil {
		return head
	}
	row, _ := strconv.Atoi(cmp.Or(m[4], m[2])) // the pattern leaves digits only
	column := max(most.to, Column(cmp.Or(m[3], m[1])))
	tag = strings.Replace(tag, m[0], fmt.Sprintf(`ref="%s%s:%s%d"`, m[1], m[2], Letters(column), max(row, most.from)), 1)
	return slices.Concat(head[:o.dimension.from], []byte(tag), head[o.dimension.to:])
}
