package decode

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
	"example.com/tripwear/profiles/nearest"
)

const mostDepth = 12

// Limits bound a file of YAML.
type Limits struct {
	Bytes  int
	Items  int    // of the list that is the file's
	Inside int    // of any other list
	Most   string // what is expected instead of a larger file
	Hint   string // what to do where the file cannot be opened
}

// ByHand is for a file that people write by hand.
var ByHand = Limits{Bytes: 1 << 20, Items: 500, Inside: 500, Most: "a file written by hand"}

// Document reads a file's single YAML document and refuses what the format
// does not need: anchors, aliases, tags, empty values, repeated keys. It is
// nil where anything is wrong.
func Document(fsys fs.FS, file string, limits Limits, errs *Errors) *yaml.Node {
	data, ok := Read(fsys, file, limits, errs)
	if !ok {
		return nil
	}
	loader, err := yaml.NewLoader(bytes.NewReader(data))
	if err != nil {
		errs.Add(Position{File: file}, "not readable as YAML: "+err.Error(), "", "save the file as plain text in UTF-8")
		return nil
	}
	var root, second yaml.Node
	if err := loader.Load(&root); err != nil {
		syntax(file, err, errs)
		return nil
	}
	switch err := loader.Load(&second); {
	case err == nil:
		errs.Add(At(file, &second), "a second document", "one document in a file", "remove the line with ---")
		return nil
	case !errors.Is(err, io.EOF):
		syntax(file, err, errs)
		return nil
	}
	if len(root.Content) == 0 {
		errs.Add(Position{file, 1, 1}, "the file holds no values", "a mapping of keys and values", "")
		return nil
	}
	if !(&inspection{file, limits, errs}).node(root.Content[0], 1) {
		return nil
	}
	root.Content[0].HeadComment = root.HeadComment
	return root.Content[0]
}

// Read gets a file's bytes and checks what a YAML parser would say badly.
func Read(fsys fs.FS, file string, limits Limits, errs *Errors) ([]byte, bool) {
	refuse := func(line, column int, what, expected, hint string) ([]byte, bool) {
		errs.Add(Position{file, line, column}, what, expected, hint)
		return nil, false
	}
	f, wrong := Open(fsys, file)
	if wrong != "" {
		return refuse(0, 0, wrong, "a file that can be read", limits.Hint)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, int64(limits.Bytes)+1))
	switch {
	case err != nil:
		return refuse(0, 0, Reason(err), "a file that can be read", "")
	case len(data) > limits.Bytes:
		return refuse(0, 0, fmt.Sprintf("the file is larger than %d MiB", limits.Bytes>>20), limits.Most, "")
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

// Open opens a file to read, or says what is wrong with it. It leaves pipes and
// devices alone: reading one might not end.
func Open(fsys fs.FS, file string) (f fs.File, wrong string) {
	info, err := fs.Stat(fsys, file)
	switch {
	case err != nil:
		return nil, Reason(err)
	case info.IsDir():
		return nil, "a folder"
	case !info.Mode().IsRegular():
		return nil, "not an ordinary file"
	}
	if f, err = fsys.Open(file); err != nil {
		return nil, Reason(err)
	}
	return f, ""
}

// Reason is an error of the file system without the path, which the position has.
func Reason(err error) string {
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
		errs.Add(Position{File: file}, "the file holds no values", "a mapping of keys and values", "")
	case !errors.As(err, &e):
		errs.Add(Position{File: file}, "not readable as YAML: "+err.Error(), "", hint)
	case strings.Contains(e.Message, "max depth"):
		errs.Add(Position{file, e.Mark.Line, e.Mark.Column}, "the values are nested too deep", fmt.Sprintf("at most %d levels", mostDepth), "")
	default:
		what := "not readable as YAML: " + e.Message
		if e.ContextMsg != "" {
			what += " " + e.ContextMsg
			if e.ContextMark.Line > 0 && e.ContextMark.Line != e.Mark.Line {
				what += fmt.Sprintf(" that begins in line %d", e.ContextMark.Line)
			}
		}
		errs.Add(Position{file, e.Mark.Line, e.Mark.Column}, what, "", hint)
	}
}

// Empty says whether nothing is written.
func Empty(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.Tag == "!!null" }

type inspection struct {
	file   string
	limits Limits
	errs   *Errors
}

// node walks a document for what the format leaves out, drops keys given
// twice, and says whether the rest can be read.
func (i *inspection) node(n *yaml.Node, depth int) bool {
	refuse := func(what, expected, hint string) bool {
		i.errs.Add(At(i.file, n), what, expected, hint)
		return false
	}
	items := i.limits.Inside
	if depth == 2 {
		items = i.limits.Items
	}
	switch {
	case depth > mostDepth:
		return refuse("the values are nested too deep", fmt.Sprintf("at most %d levels", mostDepth), "")
	case n.Kind == yaml.AliasNode:
		return refuse(fmt.Sprintf("alias *%s", nearest.Cut(n.Value)), "the value itself", "write the value out")
	case n.Kind == yaml.SequenceNode && len(n.Content) > items:
		return refuse(fmt.Sprintf("a list of %d items", len(n.Content)), fmt.Sprintf("at most %d", items), "")
	}
	ok := true
	switch {
	case n.Anchor != "":
		ok = refuse(fmt.Sprintf("anchor &%s", nearest.Cut(n.Anchor)), "the value alone", "anchors and aliases are not used in these files")
	case n.Style&yaml.TaggedStyle != 0:
		ok = refuse(fmt.Sprintf("tag %s", nearest.Cut(n.Tag)), "the value alone", "")
	}
	if n.Kind == yaml.MappingNode {
		return i.keys(n, depth) && ok
	}
	for _, c := range n.Content {
		ok = i.node(c, depth+1) && ok
	}
	return ok
}

func (i *inspection) keys(n *yaml.Node, depth int) bool {
	ok := true
	first := map[string]Position{}
	var kept []*yaml.Node
	for key, value := range Pairs(n) {
		where := At(i.file, key)
		if key.Kind != yaml.ScalarNode || key.Tag == "!!merge" || key.Tag == "!!null" {
			i.errs.Add(where, "a key that is not a word", "a key such as name", "")
			ok = false
			continue
		}
		if other, given := first[key.Value]; given {
			i.errs.Add(where, fmt.Sprintf("key %q is given twice", nearest.Cut(key.Value)), "each key once", "it stands in "+other.Again()+" already")
			continue
		}
		first[key.Value] = where
		kept = append(kept, key, value)
		if Empty(value) {
			i.errs.Add(where, fmt.Sprintf("key %q has no value", nearest.Cut(key.Value)), "a value after the colon", "remove the line to leave the key out")
			continue
		}
		ok = i.node(key, depth+1) && ok
		ok = i.node(value, depth+1) && ok
	}
	n.Content = kept
	return ok
}
