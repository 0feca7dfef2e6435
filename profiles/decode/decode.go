// Package decode fills structs from the nodes of a document that a person
// wrote, strictly: what is unknown, missing, given twice, out of range or of
// another form is an error with its line and column, and all are found at once.
// The tags of a struct's fields say what its keys are and may hold.
package decode

import (
	"fmt"
	"iter"
	"reflect"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/nearest"
)

// Decoder turns the nodes of one file into values.
type Decoder struct {
	Stock   bool                // values are written {value, tag, source}
	Partial bool                // keys may be missing: they are set already
	Errs    *Errors             // every error is added to them
	At      map[string]Position // of every key seen, by its path
	Sources Sources             // of every value seen, by its path

	file string
}

// New is a decoder for a file.
func New(file string, errs *Errors) *Decoder {
	return &Decoder{file: file, Errs: errs, At: map[string]Position{}, Sources: Sources{}}
}

// Owner is the tag of a value that the owner gave.
const Owner = "owner"

// Source says where a value came from.
type Source struct {
	Value string // as written
	Tag   string // published, common practice, from memory, engineering choice, owner
	Text  string // the source in words
	Position
}

// Sources maps the key of a value (dotted path inside its item) to its source.
type Sources map[string]Source

// Decodable is a type whose nodes have a form of their own.
type Decodable interface {
	Decode(d *Decoder, n *yaml.Node, path string, f Field)
}

// Fail adds an error at a node.
func (d *Decoder) Fail(n *yaml.Node, what, expected, hint string) {
	d.Errs.Add(At(d.file, n), what, expected, hint)
}

// Mapping decodes a mapping into fields, whose paths begin with its own.
func (d *Decoder) Mapping(n *yaml.Node, path string, fields []Field) {
	if !d.IsMapping(n, path, Keys(fields)) {
		return
	}
	for key, value := range Pairs(n) {
		f := Find(fields, key.Value)
		if f == nil {
			d.Fail(key, nearest.Unknown("key", key.Value, Keys(fields)), nearest.OneOf(Keys(fields)), "")
			continue
		}
		if key.Value == f.was && Lookup(n, f.Key) != nil {
			d.Fail(key, fmt.Sprintf("key %q beside %q", f.was, f.Key), "one of them", "")
			continue
		}
		d.Seen(value, Join(path, f.Key))
		if !Empty(value) { // reported with the document
			d.value(value, Join(path, f.Key), *f)
		}
	}
	if d.Partial {
		return
	}
	for _, f := range fields {
		if _, seen := d.At[Join(path, f.Key)]; f.Need && !seen {
			d.Fail(n, fmt.Sprintf("key %q is missing", Join(path, f.Key)), f.Like(), "")
		}
	}
}

// IsMapping reports a node that is none.
func (d *Decoder) IsMapping(n *yaml.Node, path string, keys []string) bool {
	if n.Kind != yaml.MappingNode {
		d.Fail(n, fmt.Sprintf("%s is %s", title(path), Form(n)), "a mapping with the keys "+nearest.List(keys), "")
		return false
	}
	return true
}

// Seen notes where the value of a path stands.
func (d *Decoder) Seen(value *yaml.Node, path string) { d.At[path] = At(d.file, value) }

// Pairs yields the keys and values of a mapping.
func Pairs(n *yaml.Node) iter.Seq2[*yaml.Node, *yaml.Node] {
	return func(yield func(key, value *yaml.Node) bool) {
		for i := 0; i+1 < len(n.Content) && yield(n.Content[i], n.Content[i+1]); i += 2 {
		}
	}
}

// Lookup is the value of a key, nil where there is none or no mapping.
func Lookup(n *yaml.Node, key string) *yaml.Node {
	if n == nil || n.Kind != yaml.MappingNode {
		return nil
	}
	for k, value := range Pairs(n) {
		if k.Value == key {
			return value
		}
	}
	return nil
}

// At is where a node stands. One of a workbook names its sheet as its anchor,
// which no node of a file has: Document refuses them.
func At(file string, n *yaml.Node) Position {
	if strings.HasSuffix(n.Anchor, "!") {
		file = n.Anchor
	}
	return Position{File: file, Line: n.Line, Column: n.Column}
}

// Join is the path of a key inside another.
func Join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// title is how a message names a path: its last key, and the one before where
// the last is a place.
func title(path string) string {
	if path == "" {
		return "the file"
	}
	i := strings.LastIndexByte(path, '.')
	if place, _, _ := strings.Cut(path[i+1:], "["); i > 0 && slices.Contains(logbook.Wheels, place) {
		i = strings.LastIndexByte(path[:i], '.')
	}
	return path[i+1:]
}

// Form is how a message names what a node is.
func Form(n *yaml.Node) string {
	switch n.Kind {
	case yaml.MappingNode:
		return "a mapping"
	case yaml.SequenceNode:
		return "a list"
	default:
		return fmt.Sprintf("%q", nearest.Cut(n.Value))
	}
}

func (d *Decoder) value(n *yaml.Node, path string, f Field) {
	source := Source{Tag: Owner, Position: At(d.file, n)}
	if d.Stock && Lookup(n, "value") != nil {
		source.Tag, source.Text = text(Lookup(n, "tag")), text(Lookup(n, "source"))
		n = Lookup(n, "value")
	}
	outer := d.Sources
	if source.Tag != Owner {
		d.Sources = Sources{} // one source for all that the value holds
	} else {
		source.Text = source.Position.String()
	}
	single := d.into(n, path, f)
	d.Sources = outer
	if single || source.Tag != Owner {
		source.Value = written(n)
		d.Sources[path] = source
	}
}

func text(n *yaml.Node) string {
	if n == nil {
		return ""
	}
	return n.Value
}

func written(n *yaml.Node) string {
	if n.Kind == yaml.ScalarNode {
		return n.Value
	}
	if n.Kind == yaml.SequenceNode && len(n.Content) > 0 && n.Content[0].Kind != yaml.ScalarNode {
		return fmt.Sprintf("%d items", len(n.Content))
	}
	items := make([]string, len(n.Content))
	for i, c := range n.Content {
		items[i] = written(c)
	}
	return strings.Join(items, ", ")
}

// into decodes by the field's type; it reports whether the node is one value,
// which has a source, rather than a mapping of values.
func (d *Decoder) into(n *yaml.Node, path string, f Field) bool {
	own, decodable := f.Value.Addr().Interface().(Decodable)
	switch {
	case decodable:
		own.Decode(d, n, path, f)
	case f.Single():
		d.scalar(n, path, f)
		return true
	case f.Value.Kind() == reflect.Struct:
		d.Mapping(n, path, FieldsOf(f.Value))
	case f.Value.Kind() == reflect.Map:
		d.places(n, path, f)
	default:
		return d.list(n, path, f)
	}
	return false
}

// list decodes each item; it reports whether they are single values.
func (d *Decoder) list(n *yaml.Node, path string, f Field) bool {
	item := f
	item.Value = reflect.New(f.Value.Type().Elem()).Elem()
	single := item.Single()
	if single && n.Kind == yaml.ScalarNode && n.Value != "" && !strings.Contains(n.Value, ",") { // a word alone is a list of one
		n = &yaml.Node{Kind: yaml.SequenceNode, Line: n.Line, Column: n.Column, Content: []*yaml.Node{n}}
	}
	if n.Kind != yaml.SequenceNode {
		d.Fail(n, fmt.Sprintf("%s is %s", title(path), Form(n)), "a list", "write [a, b], or one item a line after a dash")
		return single
	}
	if len(n.Content) == 0 {
		d.Fail(n, title(path)+" is an empty list", "at least one item", "")
		return single
	}
	out := reflect.MakeSlice(f.Value.Type(), len(n.Content), len(n.Content))
	first := map[string]bool{}
	for i, c := range n.Content {
		item.Value = out.Index(i)
		p := fmt.Sprintf("%s[%d]", path, i)
		d.Seen(c, p)
		d.into(c, p, item)
		if word, ok := item.Value.Interface().(string); ok && word != "" {
			if first[word] {
				d.Fail(c, fmt.Sprintf("%s: %q is given twice", title(path), nearest.Cut(word)), "each once", "")
			}
			first[word] = true
		}
	}
	f.Value.Set(out)
	return single
}

// ByWord is the values of a mapping by the words that its keys are, in whatever
// spelling, each once.
func (d *Decoder) ByWord(n *yaml.Node, words []string) map[string]*yaml.Node {
	keys, values := map[string]string{}, map[string]*yaml.Node{}
	for key, value := range Pairs(n) {
		word := logbook.OneOf(words, key.Value)
		switch first, twice := keys[word]; {
		case word == "":
			d.Fail(key, nearest.Unknown("key", key.Value, words), nearest.OneOf(words), "")
		case twice:
			d.Fail(key, fmt.Sprintf("key %q beside %q", key.Value, first), "one of them", "")
		default:
			keys[word], values[word] = key.Value, value
		}
	}
	return values
}

// places decodes a mapping whose keys are the field's words, over what the map holds.
func (d *Decoder) places(n *yaml.Node, path string, f Field) {
	if !d.IsMapping(n, path, f.Words) {
		return
	}
	out := reflect.MakeMap(f.Value.Type())
	for key, value := range f.Value.Seq2() {
		out.SetMapIndex(key, value)
	}
	given := d.ByWord(n, f.Words)
	for _, word := range f.Words {
		value, ok := given[word]
		if !ok || Empty(value) { // reported
			continue
		}
		element := Field{Key: word, Value: reflect.New(f.Value.Type().Elem()).Elem(), Min: f.Min, Max: f.Max, Words: f.Each, As: f.As}
		if old := out.MapIndex(reflect.ValueOf(word)); old.IsValid() {
			element.Value.Set(old)
		}
		p := Join(path, word)
		d.Seen(value, p)
		d.value(value, p, element)
		out.SetMapIndex(reflect.ValueOf(word), element.Value)
	}
	f.Value.Set(out)
}
