package workbook

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
	mostBytes = 32 << 20 // of the file
	mostPart  = 16 << 20 // of a part, unpacked
	mostParts = 2000
	mostRows  = 20_000
	mostText  = 32_767 // characters of a cell, as the format allows
)

// formCells is a row of the form: its cells by column, counted from 1.
type formCells struct {
	number int
	cells  map[int]string
}

var (
	errTooBig = errors.New("too big")
	errNoText = errors.New("a cell points to a text that is not there")
)

// openForm finds the Measurements sheet of a package and reads its cells.
func openForm(r io.ReaderAt, size int64) ([]formCells, error) {
	if size > mostBytes {
		return nil, foreign(fmt.Sprintf("it is larger than the %d MB that a plan takes at most", mostBytes>>20))
	}
	magic := make([]byte, 4)
	if _, err := r.ReadAt(magic, 0); err != nil {
		return nil, foreign("it is too short for a workbook")
	}
	if string(magic) == "\xd0\xcf\x11\xe0" {
		return nil, foreign("it is locked with a password, or a workbook of before 2007")
	}
	z, err := zip.NewReader(r, size)
	if err != nil {
		return nil, foreign("it is not a workbook, or a damaged one")
	}
	if len(z.File) > mostParts {
		return nil, foreign("it has more parts than a workbook")
	}
	book := pack2007{z}
	sheet, err := book.sheet(formName)
	if err != nil {
		return nil, explain(err)
	}
	texts, err := book.texts()
	if err != nil {
		return nil, explain(err)
	}
	rows, err := book.rows(sheet, texts)
	return rows, explain(err)
}

// explain turns what a part's reader met into what the user reads.
func explain(err error) error {
	var known *ReadError
	switch {
	case err == nil, errors.As(err, &known):
		return err
	case errors.Is(err, errTooBig):
		return foreign(fmt.Sprintf("a part of it unpacks to more than %d MB", mostPart>>20))
	case errors.Is(err, errNoText):
		return foreign("it is damaged: " + err.Error())
	default: // what the readers of zip and XML say helps nobody
		return foreign("it is damaged: a part of it is cut off or broken")
	}
}

// pack2007 is a package of the open format.
type pack2007 struct{ z *zip.Reader }

// limited reads no more than a part may have.
type limited struct {
	r    io.Reader
	left int64
}

func (l *limited) Read(p []byte) (int, error) {
	if l.left <= 0 {
		return 0, errTooBig
	}
	if int64(len(p)) > l.left {
		p = p[:l.left]
	}
	n, err := l.r.Read(p)
	l.left -= int64(n)
	return n, err
}

// walk hands every start element and text of a part to see, which may take
// the element's inside from the decoder.
func (b pack2007) walk(name string, see func(d *xml.Decoder, e xml.StartElement) error) (err error) {
	for _, f := range b.z.File {
		if !strings.EqualFold(f.Name, name) {
			continue
		}
		part, err := f.Open()
		if err != nil {
			return err
		}
		d := xml.NewDecoder(&limited{part, mostPart})
		for {
			t, err := d.Token()
			if err == io.EOF {
				return part.Close()
			}
			if err != nil {
				return errors.Join(err, part.Close())
			}
			if e, ok := t.(xml.StartElement); ok {
				if err := see(d, e); err != nil {
					return errors.Join(err, part.Close())
				}
			}
		}
	}
	return errMissing
}

var errMissing = errors.New("a part is missing")

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// sheet is the part that holds a sheet.
func (b pack2007) sheet(name string) (string, error) {
	id := ""
	err := b.walk("xl/workbook.xml", func(_ *xml.Decoder, e xml.StartElement) error {
		if e.Name.Local != "sheet" || attribute(e, "name") != name {
			return nil
		}
		for _, a := range e.Attr { // of the relationships' name space: r:id, not sheetId
			if a.Name.Local == "id" {
				id = a.Value
			}
		}
		return nil
	})
	if errors.Is(err, errMissing) {
		return "", foreign("it is not a workbook of the .xlsx kind")
	}
	if err != nil {
		return "", err
	}
	if id == "" {
		return "", foreign("it has no sheet " + name)
	}
	target := ""
	err = b.walk("xl/_rels/workbook.xml.rels", func(_ *xml.Decoder, e xml.StartElement) error {
		if e.Name.Local == "Relationship" && attribute(e, "Id") == id {
			target = attribute(e, "Target")
		}
		return nil
	})
	if err != nil {
		return "", err
	}
	if rest, ok := strings.CutPrefix(target, "/"); ok {
		return rest, nil
	}
	return path.Join("xl", target), nil
}

// rich is a text, whole or in runs of one look each; reading aids above it are
// none of it.
type rich struct {
	T string `xml:"t"`
	R []struct {
		T string `xml:"t"`
	} `xml:"r"`
}

func (r rich) text() string {
	for _, run := range r.R {
		r.T += run.T
	}
	return r.T
}

// texts are the shared strings; a package may have none.
func (b pack2007) texts() ([]string, error) {
	var out []string
	err := b.walk("xl/sharedStrings.xml", func(d *xml.Decoder, e xml.StartElement) error {
		if e.Name.Local != "si" {
			return nil
		}
		var t rich
		if err := d.DecodeElement(&t, &e); err != nil {
			return err
		}
		if out = append(out, t.text()); len(out[len(out)-1]) > 4*mostText {
			return errTooBig
		}
		return nil
	})
	if errors.Is(err, errMissing) {
		return nil, nil
	}
	return out, err
}

// rows reads a sheet's cells.
func (b pack2007) rows(part string, texts []string) ([]formCells, error) {
	var out []formCells
	err := b.walk(part, func(d *xml.Decoder, e xml.StartElement) error {
		switch e.Name.Local {
		case "row":
			n := len(out) + 1
			if len(out) > 0 {
				n = out[len(out)-1].number + 1
			}
			if r, err := strconv.Atoi(attribute(e, "r")); err == nil {
				n = r
			}
			out = append(out, formCells{n, map[int]string{}})
			if len(out) > mostRows {
				return errTooBig
			}
		case "c":
			if len(out) == 0 {
				return nil
			}
			row := &out[len(out)-1]
			col := column(attribute(e, "r"))
			v, err := value(d, attribute(e, "t"), texts)
			if err != nil {
				return err
			}
			if col > 0 && v != "" {
				row.cells[col] = v
			}
		}
		return nil
	})
	if errors.Is(err, errMissing) {
		return nil, foreign("the sheet " + formName + " is missing from it")
	}
	return out, err
}

// column is the number of a cell's column; 0 where the name is none.
func column(at string) int {
	n := 0
	for i := 0; i < len(at) && i < 3 && at[i] >= 'A' && at[i] <= 'Z'; i++ {
		n = n*26 + int(at[i]-'A') + 1
	}
	return n
}

// value reads the cell that was just begun.
func value(d *xml.Decoder, kind string, texts []string) (string, error) {
	var c struct {
		V  string `xml:"v"`
		IS rich   `xml:"is"`
	}
	if err := d.DecodeElement(&c, &xml.StartElement{Name: xml.Name{Local: "c"}}); err != nil {
		return "", err
	}
	switch kind {
	case "s":
		i, err := strconv.Atoi(strings.TrimSpace(c.V))
		if err != nil || i < 0 || i >= len(texts) {
			return "", errNoText
		}
		return texts[i], nil
	case "inlineStr":
		return c.IS.text(), nil
	case "e", "b":
		return "", nil
	}
	return c.V, nil
}
