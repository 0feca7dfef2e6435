package profiles

import (
	"fmt"
	"iter"
	"reflect"
	"slices"
	"strings"
	"time"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/quantity"
)

// decoder turns the nodes of one file into values, collecting every error.
type decoder struct {
	file    string
	stock   bool // values are written {value, tag, source}
	partial bool // keys may be missing: they are set already
	errs    *Errors
	at      map[string]Position // of every key seen, by its path
	sources Sources             // of every value seen, by its path
}

func newDecoder(file string, errs *Errors) *decoder {
	return &decoder{file: file, errs: errs, at: map[string]Position{}, sources: Sources{}}
}

func (d *decoder) fail(n *yaml.Node, what, expected, hint string) {
	d.errs.add(at(d.file, n), what, expected, hint)
}

func (d *decoder) mapping(n *yaml.Node, path string, fields []field) {
	if !d.isMapping(n, path, keys(fields)) {
		return
	}
	for key, value := range pairs(n) {
		f := find(fields, key.Value)
		if f == nil {
			d.fail(key, nearest.Unknown("key", key.Value, keys(fields)), nearest.OneOf(keys(fields)), "")
			continue
		}
		if key.Value == f.was && lookup(n, f.key) != nil {
			d.fail(key, fmt.Sprintf("key %q beside %q", f.was, f.key), "one of them", "")
			continue
		}
		d.at[join(path, f.key)] = at(d.file, value)
		if !empty(value) { // reported with the document
			d.value(value, join(path, f.key), *f)
		}
	}
	if !d.partial {
		d.missing(path, at(d.file, n), fields)
	}
}

func (d *decoder) isMapping(n *yaml.Node, path string, keys []string) bool {
	if n.Kind != yaml.MappingNode {
		d.fail(n, fmt.Sprintf("%s is %s", title(path), form(n)), "a mapping with the keys "+nearest.List(keys), "")
		return false
	}
	return true
}

// pairs yields the keys and values of a mapping.
func pairs(n *yaml.Node) iter.Seq2[*yaml.Node, *yaml.Node] {
	return func(yield func(key, value *yaml.Node) bool) {
		for i := 0; i+1 < len(n.Content) && yield(n.Content[i], n.Content[i+1]); i += 2 {
		}
	}
}

func find(fields []field, key string) *field {
	for i := range fields {
		if fields[i].key == key || fields[i].was != "" && fields[i].was == key {
			return &fields[i]
		}
	}
	return nil
}

func (d *decoder) missing(path string, where Position, fields []field) {
	for _, f := range fields {
		if _, seen := d.at[join(path, f.key)]; f.need && !seen {
			d.errs.add(where, fmt.Sprintf("key %q is missing", join(path, f.key)), f.expected(), "")
		}
	}
}

func join(path, key string) string {
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
	if place, _, _ := strings.Cut(path[i+1:], "["); i > 0 && slices.Contains(wheels, place) {
		i = strings.LastIndexByte(path[:i], '.')
	}
	return path[i+1:]
}

func form(n *yaml.Node) string {
	switch n.Kind {
	case yaml.MappingNode:
		return "a mapping"
	case yaml.SequenceNode:
		return "a list"
	default:
		return fmt.Sprintf("%q", nearest.Cut(n.Value))
	}
}

func (d *decoder) value(n *yaml.Node, path string, f field) {
	source := Source{Tag: "owner", Position: at(d.file, n)}
	if d.stock && n.Kind == yaml.MappingNode && lookup(n, "value") != nil {
		source.Tag, source.Text = text(lookup(n, "tag")), text(lookup(n, "source"))
		n = lookup(n, "value")
	}
	outer := d.sources
	if source.Tag != "owner" {
		d.sources = Sources{} // one source for all that the value holds
	} else {
		source.Text = source.Position.String()
	}
	single := d.into(n, path, f)
	d.sources = outer
	if single || source.Tag != "owner" {
		source.Value = written(n)
		d.sources[path] = source
	}
}

func lookup(n *yaml.Node, key string) *yaml.Node {
	if n == nil || n.Kind != yaml.MappingNode {
		return nil
	}
	for k, value := range pairs(n) {
		if k.Value == key {
			return value
		}
	}
	return nil
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
func (d *decoder) into(n *yaml.Node, path string, f field) bool {
	v := f.value
	switch v.Interface().(type) {
	case time.Time, Sessions, toe:
		d.scalar(n, path, f)
		return true
	case map[string]Alignment:
		d.alignment(n, path, f)
		return false
	case []Leg:
		d.list(n, path, f, d.leg)
		return false
	}
	switch v.Kind() {
	case reflect.Struct:
		d.mapping(n, path, fieldsOf(v))
	case reflect.Map:
		d.places(n, path, f)
	case reflect.Slice:
		d.list(n, path, f, func(n *yaml.Node, path string, item field) {
			if item.value.Kind() == reflect.Struct {
				d.mapping(n, path, fieldsOf(item.value))
				return
			}
			d.scalar(n, path, item)
		})
		return v.Type().Elem().Kind() != reflect.Struct
	default:
		d.scalar(n, path, f)
		return true
	}
	return false
}

func (d *decoder) list(n *yaml.Node, path string, f field, item func(*yaml.Node, string, field)) {
	if n.Kind != yaml.SequenceNode {
		d.fail(n, fmt.Sprintf("%s is %s", title(path), form(n)), "a list", "write [a, b], or one item a line after a dash")
		return
	}
	if len(n.Content) == 0 {
		d.fail(n, title(path)+" is an empty list", "at least one item", "")
		return
	}
	out := reflect.MakeSlice(f.value.Type(), len(n.Content), len(n.Content))
	first := map[string]bool{}
	for i, c := range n.Content {
		element := f
		element.value = out.Index(i)
		p := fmt.Sprintf("%s[%d]", path, i)
		d.at[p] = at(d.file, c)
		item(c, p, element)
		if word, ok := out.Index(i).Interface().(string); ok && word != "" {
			if first[word] {
				d.fail(c, fmt.Sprintf("%s: %q is given twice", title(path), nearest.Cut(word)), "each once", "")
			}
			first[word] = true
		}
	}
	f.value.Set(out)
}

// places decodes a mapping whose keys are the field's words, over what the map holds.
func (d *decoder) places(n *yaml.Node, path string, f field) {
	if !d.isMapping(n, path, f.words) {
		return
	}
	out := reflect.MakeMap(f.value.Type())
	for key, value := range f.value.Seq2() {
		out.SetMapIndex(key, value)
	}
	for key, value := range pairs(n) {
		element := field{key: key.Value, value: reflect.New(f.value.Type().Elem()).Elem(), min: f.min, max: f.max, words: f.each, as: f.as}
		if !slices.Contains(f.words, key.Value) {
			d.fail(key, nearest.Unknown("key", key.Value, f.words), nearest.OneOf(f.words), "")
			continue
		}
		if old := out.MapIndex(reflect.ValueOf(key.Value)); old.IsValid() {
			element.value.Set(old)
		}
		p := join(path, key.Value)
		d.at[p] = at(d.file, value)
		d.value(value, p, element)
		out.SetMapIndex(reflect.ValueOf(key.Value), element.value)
	}
	f.value.Set(out)
}

func (f field) expected() string {
	switch v := f.value.Interface().(type) {
	case time.Time:
		return "a date such as 2026-04-02"
	case Sessions:
		return "sessions such as 5 x 20 min"
	case toe:
		return likeToe
	case interface{ Kind() *quantity.Kind }:
		return f.kind(v).Like()
	}
	switch {
	case len(f.words) > 0 && f.value.Kind() == reflect.Slice:
		return "a list of " + nearest.OneOf(f.words)
	case len(f.words) > 0:
		return nearest.OneOf(f.words)
	case f.value.Kind() == reflect.Slice:
		return "a list"
	case f.value.Kind() == reflect.Struct:
		return "a mapping with the keys " + nearest.List(keys(fieldsOf(f.value)))
	case f.value.Kind() == reflect.Bool:
		return "true or false"
	default:
		return "text"
	}
}
