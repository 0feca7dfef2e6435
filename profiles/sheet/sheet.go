// Package sheet reads the cells of one sheet of an .xlsx workbook, whoever
// saved it: as they are stored, never a formula, and within limits, since the
// file may be damaged or made to hurt.
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
// column, counted from 1. Errors and yes or no are none.
type Row struct {
	Number int
	Cells  map[int]string
}

// Error says what is wrong with a file.
type Error struct{ What string }

// Error implements error.
func (e *Error) Error() string { return e.What }

var (
	errTooBig  = &Error{fmt.Sprintf("a part of it unpacks to more than %d MB", MostPart>>20)}
	errNoText  = &Error{"it is damaged: a cell points to a text that is not there"}
	errMissing = errors.New("a part is missing")
)

// Read gives the rows of a sheet in a workbook of size bytes; every error is an
// *Error.
func Read(r io.ReaderAt, size int64, name string) ([]Row, error) {
	rows, err := read(r, size, name)
	if known := (*Error)(nil); err != nil && !errors.As(err, &known) {
		// what the readers of zip and XML say helps nobody
		err = &Error{"it is damaged: a part of it is cut off or broken"}
	}
	return rows, err
}

func read(r io.ReaderAt, size int64, name string) ([]Row, error) {
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
	b := book{z}
	part, err := b.partOf(name)
	if err != nil {
		return nil, err
	}
	texts, err := b.texts()
	if err != nil {
		return nil, err
	}
	rows, err := b.rows(part, texts)
	if errors.Is(err, errMissing) {
		err = &Error{"the sheet " + name + " is missing from it"}
	}
	return rows, err
}

// book is a package of the open format.
type book struct{ *zip.Reader }

// walk hands every start element of a part to see, which may take the
// element's inside from the decoder.
func (b book) walk(name string, see func(d *xml.Decoder, e xml.StartElement) error) error {
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
func (b book) partOf(name string) (string, error) {
	id, target := "", ""
	err := b.walk("xl/workbook.xml", func(_ *xml.Decoder, e xml.StartElement) error {
		if e.Name.Local == "sheet" && attribute(e, "name") == name {
			id = attribute(e, "id")
		}
		return nil
	})
	switch {
	case errors.Is(err, errMissing):
		return "", &Error{"it is not a workbook of the .xlsx kind"}
	case err != nil:
		return "", err
	case id == "":
		return "", &Error{"it has no sheet " + name}
	}
	err = b.walk("xl/_rels/workbook.xml.rels", func(_ *xml.Decoder, e xml.StartElement) error {
		if e.Name.Local == "Relationship" && attribute(e, "Id") == id {
			target = attribute(e, "Target")
		}
		return nil
	})
	if rest, ok := strings.CutPrefix(target, "/"); ok {
		return rest, err
	}
	return path.Join("xl", target), err
}

// rich is a text, whole or in runs of one look each; reading aids above it are
// none of it.
type rich struct {
	Text string   `xml:"t"`
	Runs []string `xml:"r>t"`
}

func (r rich) text() string { return r.Text + strings.Join(r.Runs, "") }

// texts are the shared strings; a package may have none.
func (b book) texts() (out []string, err error) {
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

// rows reads a sheet's cells. A row without a number is the one below the last.
func (b book) rows(part string, texts []string) (out []Row, err error) {
	n := 0
	err = b.walk(part, func(d *xml.Decoder, e xml.StartElement) error {
		switch {
		case e.Name.Local == "row":
			n++
			if r, err := strconv.Atoi(attribute(e, "r")); err == nil {
				n = r
			}
			if out = append(out, Row{n, map[int]string{}}); len(out) > MostRows {
				return errTooBig
			}
		case e.Name.Local == "c" && len(out) > 0:
			text, err := value(d, e, texts)
			if col := column(attribute(e, "r")); col > 0 && text != "" {
				out[len(out)-1].Cells[col] = text
			}
			return err
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return out, nil
}

// column is the number of a cell's column; 0 where the name is none.
func column(at string) int {
	n := 0
	for i := 0; i < len(at) && i < 3 && at[i] >= 'A' && at[i] <= 'Z'; i++ {
		n = n*26 + int(at[i]-'A') + 1
	}
	return n
}

// value reads a cell that has begun.
func value(d *xml.Decoder, e xml.StartElement, texts []string) (string, error) {
	var c struct {
		Value  string `xml:"v"`
		Inline rich   `xml:"is"`
	}
	if err := d.DecodeElement(&c, &e); err != nil {
		return "", err
	}
	switch attribute(e, "t") {
	case "s":
		i, err := strconv.Atoi(strings.TrimSpace(c.Value))
		if err != nil || i < 0 || i >= len(texts) {
			return "", errNoText
		}
		return texts[i], nil
	case "inlineStr":
		return c.Inline.text(), nil
	case "e", "b":
		return "", nil
	}
	return c.Value, nil
}
