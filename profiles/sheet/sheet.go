// Package sheet reads the cells of an .xlsx workbook, whoever saved it: as they
// are stored, never working out a formula, and within limits, since the file
// may be damaged or made to hurt. It adds rows to a sheet and leaves all else.
package sheet

import (
	"archive/zip"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"strconv"
	"strings"
)

// What a workbook may hold to be read: a real one is a hundredth of it.
const (
	MostBytes = 32 << 20 // of the file
	MostPart  = 16 << 20 // of a part, unpacked
	MostParts = 2000
	MostRows  = 20_000
	MostText  = 4 * 32_767 // bytes of a text: the format allows 32,767 characters
)

// Row is a row that the sheet has, counted from 1, and its filled cells by
// column, counted from 1.
type Row struct {
	Number int
	Cells  map[int]Cell
}

// Text is what stands in a cell as figure or text; "" where it is empty, an
// error, or yes or no.
func (r Row) Text(column int) string {
	if c := r.Cells[column]; c.Form != Truth && c.Form != Wrong {
		return c.Text
	}
	return ""
}

// Page is a sheet as it is read.
type Page struct {
	Rows   []Row
	Merged []string          // ranges of cells that are one, such as B3:C4
	Notes  map[string]string // by the cell that they hang on
}

// Error says what is wrong with a file.
type Error struct{ What string }

// Error implements error.
func (e *Error) Error() string { return e.What }

var (
	errTooBig  = &Error{fmt.Sprintf("a part of it unpacks to more than %d MB", MostPart>>20)}
	errTooLong = &Error{fmt.Sprintf("more than %d rows of a sheet are filled", MostRows)}
	errNoText  = &Error{"it is damaged: a cell points to a text that is not there"}
	errMissing = errors.New("a part is missing")
)

// told is an error in words that help: what the readers of zip and XML say does not.
func told(err error) error {
	if known := (*Error)(nil); err != nil && !errors.As(err, &known) {
		return &Error{"it is damaged: a part of it is cut off or broken"}
	}
	return err
}

// Read gives the rows of a sheet in a workbook of size bytes; every error is an
// *Error.
func Read(r io.ReaderAt, size int64, name string) ([]Row, error) {
	b, err := Open(r, size)
	if err != nil {
		return nil, err
	}
	p, err := b.Page(name)
	return p.Rows, err
}

// Book is a workbook of the open format.
type Book struct {
	Sheets []Tab // in their order
	Macros bool

	*zip.Reader
	texts   []string
	formats []Form // by the style of a cell
	from    int    // days that its first day lies after that of others
}

// Tab is a sheet's name.
type Tab struct {
	Name   string
	Hidden bool
	id     string
}

// Open reads what the sheets of a workbook of size bytes share; every error is
// an *Error.
func Open(r io.ReaderAt, size int64) (*Book, error) {
	b, err := open(r, size)
	return b, told(err)
}

func open(r io.ReaderAt, size int64) (*Book, error) {
	if size > MostBytes {
		return nil, &Error{fmt.Sprintf("it is larger than the %d MB that are read at most", MostBytes>>20)}
	}
	magic := make([]byte, 4)
	if _, err := r.ReadAt(magic, 0); err != nil {
		return nil, &Error{"it is too short for a workbook"}
	}
	if string(magic) == "\xd0\xcf\x11\xe0" {
		return nil, &Error{"it is locked with a password, or a workbook of before 2007"}
	}
	z, err := zip.NewReader(r, size)
	if err != nil {
		return nil, &Error{"it is not a workbook, or a damaged one"}
	}
	if len(z.File) > MostParts {
		return nil, &Error{"it has more parts than a workbook"}
	}
	b := &Book{Reader: z}
	for _, f := range z.File {
		b.Macros = b.Macros || strings.EqualFold(path.Base(f.Name), "vbaProject.bin")
	}
	err = b.walk("xl/workbook.xml", func(_ *xml.Decoder, e xml.StartElement) error {
		switch e.Name.Local {
		case "sheet":
			state := attribute(e, "state")
			b.Sheets = append(b.Sheets, Tab{attribute(e, "name"), state == "hidden" || state == "veryHidden", attribute(e, "id")})
		case "workbookPr":
			if since := attribute(e, "date1904"); since == "1" || since == "true" {
				b.from = days1904
			}
		}
		return nil
	})
	if errors.Is(err, errMissing) {
		return nil, &Error{"it is not a workbook of the .xlsx kind"}
	}
	if err == nil {
		b.texts, err = b.sharedTexts()
	}
	if err == nil {
		b.formats, err = b.cellForms()
	}
	return b, err
}

// Page reads a sheet; every error is an *Error.
func (b *Book) Page(name string) (Page, error) {
	part, err := b.partOf(name)
	var p Page
	if err == nil {
		p, err = b.page(part)
	}
	if errors.Is(err, errMissing) {
		err = &Error{"the sheet " + name + " is missing from it"}
	}
	if err == nil {
		p.Notes, err = b.notes(part)
	}
	if err != nil {
		return Page{}, told(err)
	}
	return p, nil
}

// walk hands every start element of a part to see, which may take the
// element's inside from the decoder.
func (b *Book) walk(name string, see func(d *xml.Decoder, e xml.StartElement) error) error {
	for _, f := range b.File {
		if !strings.EqualFold(f.Name, name) {
			continue
		}
		if f.UncompressedSize64 > MostPart { // a part larger than it says is an error of the reader's
			return errTooBig
		}
		part, err := f.Open()
		if err != nil {
			return err
		}
		d := xml.NewDecoder(part)
		for err == nil {
			var t xml.Token
			if t, err = d.Token(); err != nil {
				break
			}
			if e, ok := t.(xml.StartElement); ok {
				err = see(d, e)
			}
		}
		if err == io.EOF {
			err = nil
		}
		return errors.Join(err, part.Close())
	}
	return errMissing
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// partOf is the name of the part that holds a sheet.
func (b *Book) partOf(name string) (string, error) {
	for _, t := range b.Sheets {
		if t.Name == name && t.id != "" {
			part, err := b.related("xl/workbook.xml", func(id, _ string) bool { return id == t.id })
			switch {
			case errors.Is(err, errMissing):
				err = errors.New("no relations")
			case err == nil && part == "":
				err = errMissing
			}
			return part, err
		}
	}
	return "", &Error{"it has no sheet " + name}
}

// related is the part that one leads to by a relation of an id and a type.
func (b *Book) related(part string, is func(id, kind string) bool) (to string, err error) {
	dir, file := path.Split(part)
	err = b.walk(dir+"_rels/"+file+".rels", func(_ *xml.Decoder, e xml.StartElement) error {
		if e.Name.Local == "Relationship" && is(attribute(e, "Id"), attribute(e, "Type")) {
			to = attribute(e, "Target")
			if rest, ok := strings.CutPrefix(to, "/"); ok {
				to = rest
			} else {
				to = path.Join(dir, to)
			}
		}
		return nil
	})
	return to, err
}

// notes are those of a sheet's cells; it may have none.
func (b *Book) notes(part string) (map[string]string, error) {
	at, err := b.related(part, func(_, kind string) bool { return strings.HasSuffix(kind, "/comments") })
	if errors.Is(err, errMissing) || at == "" {
		return nil, nil
	}
	out := map[string]string{}
	if err == nil {
		err = b.walk(at, func(d *xml.Decoder, e xml.StartElement) error {
			if e.Name.Local != "comment" {
				return nil
			}
			var c struct {
				Text rich `xml:"text"`
			}
			err := d.DecodeElement(&c, &e)
			if out[attribute(e, "ref")] = c.Text.text(); len(c.Text.text()) > MostText {
				return errTooBig
			}
			return err
		})
	}
	return out, err
}

// rich is a text, whole or in runs of one look each; reading aids above it are
// none of it.
type rich struct {
	Text string   `xml:"t"`
	Runs []string `xml:"r>t"`
}

func (r rich) text() string { return r.Text + strings.Join(r.Runs, "") }

// sharedTexts are the shared strings; a package may have none.
func (b *Book) sharedTexts() (out []string, err error) {
	err = b.walk("xl/sharedStrings.xml", func(d *xml.Decoder, e xml.StartElement) error {
		if e.Name.Local != "si" {
			return nil
		}
		var t rich
		if err := d.DecodeElement(&t, &e); err != nil {
			return err
		}
		if out = append(out, t.text()); len(out[len(out)-1]) > MostText {
			return errTooBig
		}
		return nil
	})
	if errors.Is(err, errMissing) {
		err = nil
	}
	return out, err
}

// page reads a sheet's cells. A row without a number is the one below the last.
func (b *Book) page(part string) (p Page, err error) {
	row := Row{}
	err = b.walk(part, func(d *xml.Decoder, e xml.StartElement) error {
		switch {
		case e.Name.Local == "mergeCell":
			p.Merged = append(p.Merged, attribute(e, "ref"))
		case e.Name.Local == "row":
			row = Row{row.Number + 1, map[int]Cell{}}
			if r, err := strconv.Atoi(attribute(e, "r")); err == nil {
				row.Number = r
			}
		case e.Name.Local == "c" && row.Cells != nil:
			c, err := b.cell(d, e)
			col := Column(attribute(e, "r"))
			if err != nil || col == 0 || c == (Cell{}) {
				return err
			}
			if len(row.Cells) == 0 {
				if p.Rows = append(p.Rows, row); len(p.Rows) > MostRows {
					return errTooLong
				}
			}
			row.Cells[col] = c
		}
		return nil
	})
	return p, err
}

// Letters is the name of a column, counted from 1.
func Letters(column int) string {
	if column > 26 {
		return Letters((column-1)/26) + Letters((column-1)%26+1)
	}
	return string(rune('A' + column - 1))
}

// Column is the number of a cell's column; 0 where the name is none.
func Column(at string) int {
	n := 0
	for i := 0; i < len(at) && i < 3 && at[i] >= 'A' && at[i] <= 'Z'; i++ {
		n = n*26 + int(at[i]-'A') + 1
	}
	return n
}
