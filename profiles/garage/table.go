package garage

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/keys"
	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/sheet"
)

// table is a sheet as it was read.
type table struct {
	layout
	tab     string // its name in this workbook
	file    string // for a Position
	page    sheet.Page
	columns []column
	units   int // the row of the columns' units; 0 where there is none
	errs    *decode.Errors
}

// column is a column of a sheet: a key's, or one with the units of another.
type column struct {
	path   string
	number int
	unit   int // the column with its units, row by row; 0 where there is none
}

// record is what a row says, in the order of its columns.
type record struct {
	row    int
	values []value
}

// value is one cell with its key. Its node is empty where something is wrong
// with the cell, which then has been told.
type value struct {
	key        keys.Key
	name, node *yaml.Node
}

func (t *table) at(row, column int) decode.Position {
	return decode.Position{File: t.file, Line: row, Column: column}
}

func (t *table) node(kind yaml.Kind, tag, text string, row, column int) *yaml.Node {
	return &yaml.Node{Kind: kind, Tag: tag, Value: text, Line: row, Column: column, Anchor: t.file}
}

// plain is a heading without what people add and leave out.
func plain(s string) string {
	s = strings.NewReplacer("_", " ", ".", " ", "*", " ").Replace(strings.ToLower(s))
	return strings.Join(strings.Fields(s), " ")
}

// find is the key that a heading stands for.
func find(all []keys.Key, written string) (keys.Key, bool) {
	var names []string
	for _, k := range all {
		if names = append(names, plain(k.Path)); names[len(names)-1] == plain(written) {
			return k, true
		}
	}
	if i := slices.Index(names, nearest.Same(plain(written), names)); i >= 0 {
		return all[i], true
	}
	return keys.Key{}, false
}

// head reads the headings in the first row and finds the row of units.
func (t *table) head() {
	known := t.keys
	if t.lines {
		known = []keys.Key{own(whatKey, "", true), own("value", "", true)}
	}
	if len(t.page.Rows) == 0 || t.page.Rows[0].Number != 1 {
		t.errs.Add(t.at(1, 1), "no headings in the first row", headings(known), "put the row of headings back in its place")
		return
	}
	cells := t.page.Rows[0].Cells
	seen := map[string]bool{}
	for _, n := range slices.Sorted(maps.Keys(cells)) {
		written := plain(cells[n].Text)
		k, ok := find(known, written)
		switch {
		case written == unitKey && len(t.columns) > 0 && t.columns[len(t.columns)-1].number == n-1:
			t.columns[len(t.columns)-1].unit = n
			t.columns = append(t.columns, column{path: unitKey, number: n})
		case strings.HasPrefix(written, noteKey) && !ok:
			t.columns = append(t.columns, column{path: noteKey, number: n})
		case !ok:
			t.errs.Add(t.at(1, n), nearest.Unknown("heading", cells[n].Text, names(known)), headings(known), "begin the heading of a column of your own with note")
			t.columns = append(t.columns, column{path: noteKey, number: n})
		case seen[k.Path]:
			t.errs.Add(t.at(1, n), fmt.Sprintf("the heading %q is there twice", nearest.Cut(cells[n].Text)), "each once", "")
		default:
			seen[k.Path] = true
			t.columns = append(t.columns, column{path: k.Path, number: n})
		}
	}
	for _, r := range t.page.Rows[1:] {
		if text := plain(r.Text(t.columns[0].number)); t.units == 0 && !t.lines && (text == unitKey || text == unitKey+"s") {
			t.units = r.Number
		}
	}
}

func names(all []keys.Key) []string {
	var out []string
	for _, k := range all {
		out = append(out, heading(k.Path))
	}
	return out
}

func headings(all []keys.Key) string { return nearest.OneOf(names(all)) }

// unit is that of a cell's row, or of its column.
func (t *table) unit(r sheet.Row, c column) string {
	if unit := strings.TrimSpace(r.Text(c.unit)); c.unit > 0 && unit != "" {
		return unit
	}
	for _, other := range t.page.Rows {
		if other.Number == t.units {
			return strings.TrimSpace(other.Text(c.number))
		}
	}
	return ""
}

// records are the rows below the headings that say anything.
func (t *table) records() []record {
	if t.head(); len(t.columns) == 0 {
		return nil
	}
	for _, merged := range t.page.Merged {
		row, col := cellOf(merged)
		t.errs.Add(t.at(row, col), "cells are merged: "+merged, "each value in a cell of its own", "take the cells apart")
	}
	var out []record
	for _, r := range t.page.Rows[1:] {
		if r.Number == t.units {
			continue
		}
		if len(*t.errs) >= mostFaults {
			break
		}
		rec := record{row: r.Number}
		t.strays(r)
		if t.lines {
			t.line(r, &rec)
		} else {
			t.cells(r, &rec)
		}
		if len(rec.values) > 0 {
			out = append(out, rec)
		}
	}
	return out
}

// strays are cells that stand under no heading.
func (t *table) strays(r sheet.Row) {
	for _, n := range slices.Sorted(maps.Keys(r.Cells)) {
		if !slices.ContainsFunc(t.columns, func(c column) bool { return c.number == n }) && t.page.Rows[0].Cells[n] == (sheet.Cell{}) {
			t.errs.Add(t.at(r.Number, n), fmt.Sprintf("%q stands under no heading", nearest.Cut(r.Cells[n].Text)), "a heading in the first row", "begin the heading of a column of your own with note")
		}
	}
}

// line takes a row of a sheet with one value a line.
func (t *table) line(r sheet.Row, rec *record) {
	var what, at column
	for _, c := range t.columns {
		switch c.path {
		case whatKey:
			what = c
		case "value":
			at = c
		}
	}
	written := r.Text(what.number)
	k, ok := find(t.keys, written)
	switch _, filled := r.Cells[at.number]; {
	case what.number == 0 || at.number == 0:
		return // the headings are told
	case strings.TrimSpace(written) == "" && !filled:
	case strings.TrimSpace(written) == "":
		t.errs.Add(t.at(r.Number, what.number), "a value without its name", "what it is", "the first column says what the value is")
	case !ok:
		t.errs.Add(t.at(r.Number, what.number), nearest.Unknown("name", written, names(t.keys)), nearest.OneOf(names(t.keys)), "")
	default:
		t.take(r, at, k, what.number, rec)
	}
}

// cells takes a row of a sheet with one thing a row.
func (t *table) cells(r sheet.Row, rec *record) {
	all := t.keys
	if t.name == partsSheet {
		if class := t.raw(r, "class"); class != "" {
			all = append(partKeys(class), all...) // the class has the last word on a key's measure
		}
	}
	for _, c := range t.columns {
		if i := slices.IndexFunc(all, named(c.path)); i >= 0 {
			t.take(r, c, all[i], c.number, rec)
		}
	}
}

// raw is a text of a row as it stands.
func (t *table) raw(r sheet.Row, path string) string {
	i := slices.IndexFunc(t.columns, func(c column) bool { return c.path == path })
	if i < 0 {
		return ""
	}
	return strings.TrimSpace(r.Text(t.columns[i].number))
}

// take puts what a cell says into the record, unless it says nothing.
func (t *table) take(r sheet.Row, c column, k keys.Key, nameAt int, rec *record) {
	cell, filled := r.Cells[c.number]
	if !filled {
		return
	}
	text, wrong := said(cell, k, t.unit(r, c))
	v := value{key: k, name: t.node(yaml.ScalarNode, "!!str", k.Path, r.Number, nameAt)}
	switch {
	case wrong != nil:
		what := wrong.what
		t.errs.Add(t.at(r.Number, c.number), heading(k.Path)+": "+what, wrong.expected, wrong.hint)
		v.node = t.node(yaml.ScalarNode, "!!null", "", r.Number, c.number)
	case text == "":
		return
	case k.List:
		v.node = t.node(yaml.SequenceNode, "!!seq", "", r.Number, c.number)
		for _, item := range items(text) {
			v.node.Content = append(v.node.Content, t.node(yaml.ScalarNode, "!!str", item, r.Number, c.number))
		}
	default:
		v.node = t.node(yaml.ScalarNode, "!!str", text, r.Number, c.number)
	}
	note := t.page.Notes[fmt.Sprintf("%s%d", sheet.Letters(c.number), r.Number)]
	comment(&v, note)
	rec.values = append(rec.values, v)
}

// take removes a value from the record and gives it; false where it has none.
func (r *record) take(path string) (value, bool) {
	i := slices.IndexFunc(r.values, func(v value) bool { return v.key.Path == path })
	if i < 0 {
		return value{}, false
	}
	v := r.values[i]
	r.values = slices.Delete(slices.Clone(r.values), i, i+1)
	return v, true
}

// mapping is the values as the mapping that they stand for.
func (t *table) mapping(rec record) *yaml.Node {
	root := t.node(yaml.MappingNode, "!!map", "", rec.row, 1)
	t.into(root, rec)
	return root
}

func (t *table) into(root *yaml.Node, rec record) {
	for _, v := range rec.values {
		if wrong := decode.Put(root, v.name, v.node); wrong != nil {
			t.errs.Add(decode.At("", v.name), wrong.What, wrong.Expected, wrong.Hint)
		}
	}
}
