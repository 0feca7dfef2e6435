package garage

import (
	"cmp"
	"fmt"
	"path"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/nearest"
)

// fill puts the rows of a sheet into the documents that they are of.
func (b *Book) fill(t *table, rows []record) {
	switch t.name {
	case carSheet, modelSheet:
		if len(rows) > 0 || t.name == carSheet {
			root := t.node(yaml.MappingNode, "!!map", "", 1, 1)
			for _, r := range rows {
				t.into(root, r)
			}
			b.docs[strings.ToLower(t.name)+".yaml"] = root
		}
	case fittedSheet:
		b.fitted(t, rows)
	case shelfSheet:
		for _, r := range rows {
			b.item("car.yaml", "shelf", t, r, t.mapping(r))
		}
	case partsSheet:
		for _, r := range rows {
			b.item("parts.yaml", "parts", t, r, t.mapping(r))
		}
	case circuitsSheet, oilSheet:
		for _, r := range rows {
			b.named(t, r)
		}
	case cornersSheet:
		b.corners(t, rows)
	case tripsSheet:
		b.trips(t, rows)
	case logSheet:
		b.logbook(t, rows)
	}
}

// item adds a mapping to a list of a document.
func (b *Book) item(file, list string, t *table, r record, n *yaml.Node) {
	root := b.docs[file]
	if root == nil {
		root = t.node(yaml.MappingNode, "!!map", "", 1, 1)
		b.docs[file] = root
	}
	seq := decode.Lookup(root, list)
	if seq == nil {
		seq = t.node(yaml.SequenceNode, "!!seq", "", r.row, 1)
		root.Content = append(root.Content, t.node(yaml.ScalarNode, "!!str", list, r.row, 1), seq)
	}
	seq.Content = append(seq.Content, n)
}

// fitted puts parts on the car. Rows below one another that differ only by
// their places are one set.
func (b *Book) fitted(t *table, rows []record) {
	var last *yaml.Node
	var said string
	for _, r := range rows {
		item, own := t.placed(r), ""
		for _, v := range r.values {
			if !v.key.ByPlace && v.key.Path != "at" {
				own += v.key.Path + "\x00" + v.node.Value + "\x00"
			}
		}
		if own != said || !joins(last, item) {
			b.item("car.yaml", "fitted", t, r, item)
			last, said = item, own
		}
	}
}

// joins takes an item's places and what was read there into another one, unless
// they share a place.
func joins(into, item *yaml.Node) bool {
	here, there := decode.Lookup(into, "at"), decode.Lookup(item, "at")
	if here == nil || there == nil || here.Kind != yaml.SequenceNode || slices.ContainsFunc(there.Content, func(n *yaml.Node) bool {
		return slices.ContainsFunc(here.Content, func(m *yaml.Node) bool { return m.Value == n.Value })
	}) {
		return false
	}
	here.Content = append(here.Content, there.Content...)
	for key, v := range decode.Pairs(item) {
		switch old := decode.Lookup(into, key.Value); {
		case old == nil:
			into.Content = append(into.Content, key, v)
		case old.Kind == yaml.MappingNode && key.Value != "since":
			old.Content = append(old.Content, v.Content...)
		}
	}
	return true
}

// placed is a row of Fitted as an item: what is read by place is of its place.
func (t *table) placed(r record) *yaml.Node {
	at := []string{""}
	for _, v := range r.values {
		if v.key.Path == "at" && v.node.Kind == yaml.SequenceNode {
			at = nil
			for _, n := range v.node.Content {
				at = append(at, cmp.Or(logbook.OneOf(v.key.Words, n.Value), n.Value))
			}
		}
	}
	slices.SortStableFunc(r.values, func(a, b value) int { // zones from the inside out
		return cmp.Compare(slices.IndexFunc(t.keys, named(a.key.Path)), slices.IndexFunc(t.keys, named(b.key.Path)))
	})
	out := record{row: r.row}
	for _, v := range r.values {
		if !v.key.ByPlace {
			out.values = append(out.values, v)
			continue
		}
		for _, place := range at {
			one := v
			one.name = clone(v.name)
			key, _, zoned := strings.Cut(v.key.Path, ".")
			one.name.Value = decode.Join(key, place)
			begun := slices.IndexFunc(out.values, func(had value) bool { return had.name.Value == one.name.Value })
			switch {
			case zoned && begun >= 0:
				if list := out.values[begun].node; decode.Empty(v.node) {
					out.values[begun].node = v.node // told, and with it the list
				} else {
					list.Content = append(list.Content, v.node)
				}
				continue
			case zoned && !decode.Empty(v.node):
				one.node = t.node(yaml.SequenceNode, "!!seq", "", v.node.Line, v.node.Column)
				one.node.Content = []*yaml.Node{v.node}
			}
			out.values = append(out.values, one)
		}
	}
	return t.mapping(out)
}

func clone(n *yaml.Node) *yaml.Node {
	c := *n
	return &c
}

// id takes a row's id, which is also a file's name.
func (b *Book) id(t *table, r *record, path, dir string) (string, bool) {
	v, ok := r.take(path)
	switch {
	case !ok:
		t.errs.Add(t.at(r.row, 1), fmt.Sprintf("%s is missing", heading(path)), "letters, digits, dots and dashes, such as heron-flats", "")
	case decode.Empty(v.node): // told
	case !logbook.IDForm.MatchString(v.node.Value):
		t.errs.Add(decode.At("", v.node), fmt.Sprintf("%s: %q is not an id", heading(path), nearest.Cut(v.node.Value)), "letters, digits, dots and dashes, such as heron-flats", "")
	default:
		return dir + "/" + v.node.Value + ".yaml", true
	}
	return "", false
}

// named is a row that is a document of its own.
func (b *Book) named(t *table, r record) {
	dir := map[string]string{circuitsSheet: "circuits", oilSheet: "oil"}[t.name]
	file, ok := b.id(t, &r, idKey, dir)
	if !ok {
		return
	}
	if old := b.docs[file]; old != nil {
		t.errs.Add(t.at(r.row, 1), fmt.Sprintf("id %q is given twice", id(file)), "each once", "it stands in "+decode.At("", old).Again()+" already")
		return
	}
	b.docs[file] = t.mapping(r)
}

func id(file string) string { return strings.TrimSuffix(path.Base(file), path.Ext(file)) }
