package decode

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"strings"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/nearest"
)

// Table reads rows "key,value" as the mapping that they stand for.
func Table(fsys fs.FS, file string, errs *Errors) *yaml.Node {
	data, ok := Read(fsys, file, ByHand, errs)
	if !ok {
		return nil
	}
	r := csv.NewReader(bytes.NewReader(data))
	r.FieldsPerRecord, r.TrimLeadingSpace, r.Comment = -1, true, '#'
	root := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Line: 1, Column: 1}
	before := len(*errs)
	for n := 0; ; n++ {
		row, err := r.Read()
		var wrong *csv.ParseError
		switch {
		case errors.As(err, &wrong):
			errs.Add(Position{File: file, Line: wrong.Line, Column: wrong.Column}, "not readable as CSV: "+wrong.Err.Error(), "", `write one "key,value" a line, and quote a value that holds a comma`)
			return nil
		case err != nil:
			if n == 0 {
				errs.Add(Position{File: file}, "the file holds no values", "a first line key,value", "")
			}
			if len(*errs) > before {
				return nil
			}
			return root
		}
		line, column := r.FieldPos(0)
		here := Position{File: file, Line: line, Column: column}
		switch {
		case n == 0 && (len(row) != 2 || row[0] != "key" || row[1] != "value"):
			errs.Add(here, "the first line is "+quoted(row), "key,value", "a row a value follows, such as used.kv100,13.6 mm2/s")
			return nil
		case n == 0:
		case len(row) != 2:
			errs.Add(here, "the row is "+quoted(row), "a key and a value", "")
		default:
			at, valueAt := r.FieldPos(1)
			place(errs, root, here, Position{File: file, Line: at, Column: valueAt}, row[0], row[1])
		}
	}
}

func quoted(row []string) string { return `"` + nearest.Cut(strings.Join(row, ",")) + `"` }

func place(errs *Errors, root *yaml.Node, keyAt, valueAt Position, dotted, value string) {
	key := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: dotted, Line: keyAt.Line, Column: keyAt.Column}
	node := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: strings.TrimSpace(value), Line: valueAt.Line, Column: valueAt.Column}
	if wrong := Put(root, key, node); wrong != nil {
		errs.Add(keyAt, wrong.What, wrong.Expected, wrong.Hint)
	} else if node.Value == "" {
		errs.Add(keyAt, "key \""+nearest.Cut(dotted)+"\" has no value", "a value after the comma", "remove the row to leave the key out")
	}
}

// Put puts a value under a dotted key, with the mappings around it, unless
// something stands there.
func Put(root, dotted, value *yaml.Node) *Error {
	return put(root, dotted, value, nearest.Cut(dotted.Value))
}

func put(root, dotted, value *yaml.Node, whole string) *Error {
	outer, inner, more := strings.Cut(dotted.Value, ".")
	name, rest := *dotted, *dotted
	name.Value, rest.Value = outer, inner
	child := Lookup(root, outer)
	switch {
	case !more && child != nil:
		return &Error{What: fmt.Sprintf("key %q is given twice", whole), Expected: "each key once", Hint: "it stands in " + At("", child).Again() + " already"}
	case !more:
		root.Content = append(root.Content, &name, value)
		return nil
	case child == nil:
		child = &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Line: dotted.Line, Column: dotted.Column, Anchor: dotted.Anchor}
		root.Content = append(root.Content, &name, child)
		rest.HeadComment = "" // it stands once, above
	case child.Kind != yaml.MappingNode:
		return &Error{What: fmt.Sprintf("key %q lies within a value", whole), Expected: "a key of the report"}
	}
	return put(child, &rest, value, whole)
}
