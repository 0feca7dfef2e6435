package profiles

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strings"
	"unicode"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/durable"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/nearest"
)

// Limits on a file that people write by hand.
const (
	mostBytes = 1 << 20
	mostDepth = 12
	mostItems = 500 // of one list
)

// MostFaults is how many faults are told at once, of parts, of rows, or in all.
const MostFaults = logbook.MostFaults

// Limits on a list of parts, which a program may have written: a part of a
// class takes some 150 bytes, one with every value its own some 800.
const (
	partsBytes = 16 << 20
	mostParts  = 20_000
)

func itemsOf(file string, depth int) int {
	if file == partsFile && depth == 2 {
		return mostParts
	}
	return mostItems
}

// document reads a file's single YAML document and refuses what the format
// does not need: anchors, aliases, tags, empty values, repeated keys. It is
// nil where anything is wrong.
func document(fsys fs.FS, file string, errs *Errors) *yaml.Node {
	data, ok := read(fsys, file, errs)
	if !ok {
		return nil
	}
	loader, err := yaml.NewLoader(bytes.NewReader(data))
	if err != nil {
		errs.add(Position{File: file}, "not readable as YAML: "+err.Error(), "", "save the file as plain text in UTF-8")
		return nil
	}
	var root, second yaml.Node
	if err := loader.Load(&root); err != nil {
		syntax(file, err, errs)
		return nil
	}
	switch err := loader.Load(&second); {
	case err == nil:
		errs.add(at(file, &second), "a second document", "one document in a file", "remove the line with ---")
		return nil
	case !errors.Is(err, io.EOF):
		syntax(file, err, errs)
		return nil
	}
	if len(root.Content) == 0 {
		errs.add(Position{file, 1, 1}, "the file holds no values", "a mapping of keys and values", "")
		return nil
	}
	if !inspect(file, root.Content[0], 1, errs) {
		return nil
	}
	return root.Content[0]
}

func at(file string, n *yaml.Node) Position { return Position{file, n.Line, n.Column} }

// read gets a file's bytes and checks what a YAML parser would say badly.
func read(fsys fs.FS, file string, errs *Errors) ([]byte, bool) {
	refuse := func(line, column int, what, expected, hint string) ([]byte, bool) {
		errs.add(Position{file, line, column}, what, expected, hint)
		return nil, false
	}
	hint := ""
	if file == "car.yaml" {
		hint = "tripwear new starts a car folder"
	}
	f, wrong := open(fsys, file)
	if wrong != "" {
		return refuse(0, 0, wrong, "a file that can be read", hint)
	}
	defer f.Close()
	most, expected := mostBytes, "a file written by hand"
	if file == partsFile {
		most, expected = partsBytes, fmt.Sprintf("at most %d parts", mostParts)
	}
	data, err := io.ReadAll(io.LimitReader(f, int64(most)+1))
	switch {
	case err != nil:
		return refuse(0, 0, reason(err), "a file that can be read", "")
	case len(data) > most:
		return refuse(0, 0, fmt.Sprintf("the file is larger than %d MiB", most>>20), expected, "")
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff")) // some editors begin a file with a byte order mark
	if len(bytes.TrimSpace(data)) == 0 {
		return refuse(0, 0, "the file is empty", "a mapping of keys and values", "")
	}
	bad := 0
	for i, line := range bytes.Split(data, []byte("\n")) {
		indent := line[:len(line)-len(bytes.TrimLeft(line, " \t"))]
		tab := bytes.IndexByte(indent, '\t')
		mark := bytes.IndexFunc(line, func(r rune) bool { return unicode.IsControl(r) && r != '\t' && r != '\r' })
		switch {
		case !utf8.Valid(line):
			_, _ = refuse(i+1, 1, "the line is not UTF-8 text", "UTF-8", "save the file in UTF-8 encoding")
		case mark >= 0:
			_, _ = refuse(i+1, utf8.RuneCount(line[:mark])+1, "a control character", "text", "delete it, or save the file as plain text in UTF-8")
		case tab >= 0 && len(bytes.TrimSpace(line)) > 0:
			_, _ = refuse(i+1, tab+1, "a tab in the indentation", "spaces", "indent with two spaces")
		default:
			continue
		}
		if bad++; bad == 20 { // the rest is more of the same
			break
		}
	}
	return data, bad == 0
}

// open opens a file to read, or says what is wrong with it. It leaves pipes and
// devices alone: reading one might not end.
func open(fsys fs.FS, file string) (f fs.File, wrong string) {
	info, err := fs.Stat(fsys, file)
	switch {
	case err != nil:
		return nil, reason(err)
	case info.IsDir():
		return nil, "a folder"
	case !info.Mode().IsRegular():
		return nil, "not an ordinary file"
	}
	if f, err = fsys.Open(file); err != nil {
		return nil, reason(err)
	}
	return f, ""
}

// reason is an error of the file system without the path, which the position has.
func reason(err error) string {
	if errors.Is(err, fs.ErrNotExist) {
		return "no such file"
	}
	return durable.Reason(err)
}

func syntax(file string, err error, errs *Errors) {
	const hint = "quote text that holds a colon, # or other marks, and keep the indentation even"
	var e *yaml.LoadError
	switch {
	case errors.Is(err, io.EOF), strings.Contains(err.Error(), "no documents in stream"):
		errs.add(Position{File: file}, "the file holds no values", "a mapping of keys and values", "")
	case !errors.As(err, &e):
		errs.add(Position{File: file}, "not readable as YAML: "+err.Error(), "", hint)
	case strings.Contains(e.Message, "max depth"):
		errs.add(Position{file, e.Mark.Line, e.Mark.Column}, "the values are nested too deep", fmt.Sprintf("at most %d levels", mostDepth), "")
	default:
		what := "not readable as YAML: " + e.Message
		if e.ContextMsg != "" {
			what += " " + e.ContextMsg
			if e.ContextMark.Line > 0 && e.ContextMark.Line != e.Mark.Line {
				what += fmt.Sprintf(" that begins in line %d", e.ContextMark.Line)
			}
		}
		errs.add(Position{file, e.Mark.Line, e.Mark.Column}, what, "", hint)
	}
}

func empty(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.Tag == "!!null" }

// inspect walks a document for what the format leaves out, drops keys given
// twice, and says whether the rest can be read.
func inspect(file string, n *yaml.Node, depth int, errs *Errors) bool {
	where := at(file, n)
	switch {
	case depth > mostDepth:
		errs.add(where, "the values are nested too deep", fmt.Sprintf("at most %d levels", mostDepth), "")
		return false
	case n.Kind == yaml.AliasNode:
		errs.add(where, fmt.Sprintf("alias *%s", nearest.Cut(n.Value)), "the value itself", "write the value out")
		return false
	case n.Kind == yaml.SequenceNode && len(n.Content) > itemsOf(file, depth):
		errs.add(where, fmt.Sprintf("a list of %d items", len(n.Content)), fmt.Sprintf("at most %d", itemsOf(file, depth)), "")
		return false
	}
	ok := true
	switch {
	case n.Anchor != "":
		errs.add(where, fmt.Sprintf("anchor &%s", nearest.Cut(n.Anchor)), "the value alone", "anchors and aliases are not used in these files")
		ok = false
	case n.Style&yaml.TaggedStyle != 0:
		errs.add(where, fmt.Sprintf("tag %s", nearest.Cut(n.Tag)), "the value alone", "")
		ok = false
	}
	if n.Kind != yaml.MappingNode {
		for _, c := range n.Content {
			ok = inspect(file, c, depth+1, errs) && ok
		}
		return ok
	}
	return inspectKeys(file, n, depth, errs) && ok
}

func inspectKeys(file string, n *yaml.Node, depth int, errs *Errors) bool {
	ok := true
	first := map[string]int{}
	var kept []*yaml.Node
	for key, value := range pairs(n) {
		where := at(file, key)
		if key.Kind != yaml.ScalarNode || key.Tag == "!!merge" || key.Tag == "!!null" {
			errs.add(where, "a key that is not a word", "a key such as name", "")
			ok = false
			continue
		}
		if line, given := first[key.Value]; given {
			errs.add(where, fmt.Sprintf("key %q is given twice", nearest.Cut(key.Value)), "each key once", fmt.Sprintf("it stands in line %d already", line))
			continue
		}
		first[key.Value] = key.Line
		kept = append(kept, key, value)
		if empty(value) {
			errs.add(where, fmt.Sprintf("key %q has no value", nearest.Cut(key.Value)), "a value after the colon", "remove the line to leave the key out")
			continue
		}
		ok = inspect(file, key, depth+1, errs) && ok
		ok = inspect(file, value, depth+1, errs) && ok
	}
	n.Content = kept
	return ok
}
