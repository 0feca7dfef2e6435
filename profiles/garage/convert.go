package garage

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
	"testing/fstest"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/sheet"
	"example.com/tripwear/profiles/strays"
)

// Write writes a car folder as a garage; its comments are the notes of cells.
// Left are the files that it does not hold.
func Write(w io.Writer, folder fs.FS) (left []string, err error) {
	f, err := profiles.Load(folder)
	if err != nil {
		return nil, err
	}
	c := content{}
	var errs decode.Errors
	for _, file := range files(folder) {
		if root := document(folder, file, &errs); root != nil {
			c.fold(file, root)
		}
	}
	for _, e := range f.Rows() {
		var row line
		for _, column := range logbook.Columns {
			row = append(row, entry{path: column, text: e.Row()[column]})
		}
		c.add(logSheet, row)
	}
	for _, u := range strays.Find(folder, f) {
		left = append(left, u.Name)
	}
	if err := errs.Sorted(); err != nil {
		return nil, err
	}
	return left, c.write(w)
}

func document(folder fs.FS, file string, errs *decode.Errors) *yaml.Node {
	if path.Ext(file) == ".csv" {
		return decode.Table(folder, file, errs)
	}
	limits := decode.ByHand
	if file == "parts.yaml" {
		limits.Bytes, limits.Items = sheet.MostPart, sheet.MostRows
	}
	return decode.Document(folder, file, limits, errs)
}

// files are the documents of a folder.
func files(folder fs.FS) []string {
	var out []string
	for _, pattern := range []string{"car.yaml", "parts.yaml", "model.yaml", "circuits/*.yaml", "trips/*.yaml", "oil/*.yaml", "oil/*.csv"} {
		found, _ := fs.Glob(folder, pattern) // the patterns are well formed
		for _, name := range found {
			if !strings.HasPrefix(path.Base(name), ".") {
				out = append(out, name)
			}
		}
	}
	return out
}

// Tracks are the files beside a folder's documents that its circuits name, and the
// rates of other cars.
func Tracks(f *profiles.Folder) []string {
	all := map[string]bool{}
	for _, c := range f.Circuits {
		for _, file := range c.Files() {
			all[file] = true
		}
	}
	for _, r := range f.Rates {
		all[r.File] = true
	}
	return slices.Sorted(maps.Keys(all))
}

// Folder is the garage as the files of a car folder; notes are their comments.
func (b *Book) Folder() (fstest.MapFS, error) {
	if _, err := profiles.Load(b); err != nil {
		return nil, err
	}
	out := fstest.MapFS{}
	for file, root := range b.docs {
		n := tidy(root)
		var text bytes.Buffer
		if n.HeadComment != "" {
			text.WriteString(n.HeadComment + "\n\n")
			n.HeadComment = ""
		}
		e := yaml.NewEncoder(&text)
		e.SetIndent(2)
		if err := errors.Join(e.Encode(n), e.Close()); err != nil {
			return nil, err
		}
		out[file] = &fstest.MapFile{Data: text.Bytes()}
	}
	if rows := b.rows(); len(rows) > 0 {
		log, _ := logbook.Of(rows) // loaded
		text, err := logbook.Text(log.Entries)
		if err != nil {
			return nil, err
		}
		out[profiles.LogFile] = &fstest.MapFile{Data: text}
	}
	return out, nil
}

// tidy is a copy of a document to be written: without the names of sheets, and
// with what is short and says nothing beside in one line.
func tidy(n *yaml.Node) *yaml.Node {
	c := *n
	c.Anchor, c.Line, c.Column, c.Tag = "", 0, 0, ""
	c.Content = nil
	short := 0
	plain := true
	for _, inner := range n.Content {
		t := tidy(inner)
		c.Content = append(c.Content, t)
		short += len(t.Value) + 4
		plain = plain && t.HeadComment == "" && t.LineComment == "" && (t.Kind == yaml.ScalarNode || t.Style == yaml.FlowStyle && len(t.Content) < 4)
	}
	if n.Kind != yaml.ScalarNode && plain && short < 76 && len(n.Content) > 0 {
		c.Style = yaml.FlowStyle
	}
	return &c
}
