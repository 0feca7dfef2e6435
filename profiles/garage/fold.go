package garage

import (
	"cmp"
	"path"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/keys"
	"example.com/tripwear/profiles/logbook"
)

// entry is a value of a document on its way into a cell.
type entry struct {
	path, text, note string
}

// line is a row in the making.
type line []entry

func (l line) get(path string) string {
	for _, e := range l {
		if e.path == path {
			return e.text
		}
	}
	return ""
}

// content is rows in the making, by sheet.
type content map[string][]line

func (c content) add(sheet string, l line) { c[sheet] = append(c[sheet], l) }

// fold puts a document into the sheets that hold its values.
func (c content) fold(file string, root *yaml.Node) {
	top := plainly(root.HeadComment)
	switch dir := path.Dir(file); {
	case file == "car.yaml" || file == "model.yaml":
		name, all := carSheet, decode.FieldsIn(&profiles.Car{})
		if file == "model.yaml" {
			name, all = modelSheet, decode.FieldsIn(&profiles.Model{})
		}
		walk(root, all, "", top, func(e entry, _ *yaml.Node) { c.add(name, line{e}) })
		c.each(root, "fitted", c.fitted)
		c.each(root, "shelf", func(n *yaml.Node, note string) {
			c.add(shelfSheet, flat(n, decode.FieldsIn(&profiles.Spare{}), note))
		})
	case file == "parts.yaml":
		c.each(root, "parts", func(n *yaml.Node, note string) {
			fields := profiles.PartFields(profiles.KindOf(decode.Lookup(n, "class").Value)) // it was loaded
			c.add(partsSheet, flat(n, fields, joinNotes(top, note)))
			top = ""
		})
	case dir == "circuits":
		id := id(file)
		c.add(circuitsSheet, append(line{{path: idKey, text: id}}, flat(root, decode.FieldsIn(&profiles.Circuit{}), top)...))
		n := 0
		c.each(root, "corners", func(corner *yaml.Node, note string) {
			n++
			own := line{{path: circuitKey, text: id}, {path: numberKey, text: strconv.Itoa(n)}}
			c.add(cornersSheet, append(own, flat(corner, decode.FieldsIn(&profiles.Corner{}), note)...))
		})
	case dir == "trips":
		c.trip(id(file), root, top)
	case dir == "oil":
		c.add(oilSheet, append(line{{path: idKey, text: id(file)}}, flat(root, decode.FieldsIn(&profiles.OilReport{}), top)...))
	}
}

// each hands over the items of a list with the notes that lead to them.
func (c content) each(root *yaml.Node, key string, take func(n *yaml.Node, note string)) {
	for k, seq := range decode.Pairs(root) {
		if k.Value != key {
			continue
		}
		note := joinNotes(notesOf(k), plainly(seq.HeadComment))
		for _, n := range seq.Content {
			take(n, joinNotes(note, notesOf(n)))
			note = ""
		}
	}
}

func (c content) trip(id string, root *yaml.Node, note string) {
	first := line{{path: tripKey, text: id}, {path: kindKey, text: tripKind}}
	for _, e := range flat(root, decode.FieldsIn(&profiles.Trip{}), note) {
		if e.path == "trip" {
			e.path = nameKey
		}
		first = append(first, e)
	}
	c.add(tripsSheet, first)
	n := 0
	c.each(root, "legs", func(leg *yaml.Node, note string) {
		n++
		row := line{{path: tripKey, text: id}, {path: legKey, text: strconv.Itoa(n)}}
		for _, kind := range legKinds {
			if decode.Lookup(leg, string(kind)) == nil {
				continue
			}
			row = append(row, entry{path: kindKey, text: string(kind)})
			for _, e := range flat(leg, kind.Fields(), note) {
				if e.path == string(kind) {
					e.path = nameKey
				}
				row = append(row, e)
			}
		}
		c.add(tripsSheet, row)
	})
}

// fitted is an item of fitted as a row for each of its places.
func (c content) fitted(n *yaml.Node, note string) {
	var of profiles.Fitted
	shared, own := line{}, map[string]line{}
	var at []string
	places, _ := of.Words("at")
	for _, e := range flat(n, decode.FieldsIn(&of), note) {
		key, place, by := cutLast(e.path)
		switch {
		case e.path == "at":
			for _, s := range items(e.text) {
				at = append(at, cmp.Or(logbook.OneOf(places, s), s))
			}
		case !by || key == "since":
			shared = append(shared, e)
		default:
			word, zone, zoned := strings.Cut(place, " ") // see flat
			if e.path = key; zoned {
				e.path = decode.Join(key, zone)
			}
			own[word] = append(own[word], e)
		}
	}
	for i, place := range at {
		row := slices.Insert(slices.Clone(shared), 1, entry{path: "at", text: place})
		if i > 0 {
			for j := range row {
				row[j].note = ""
			}
		}
		c.add(fittedSheet, append(row, own[place]...))
	}
}

func cutLast(path string) (before, after string, ok bool) {
	i := strings.LastIndexByte(path, '.')
	if i < 0 {
		return path, "", false
	}
	return path[:i], path[i+1:], true
}

// flat is a mapping as the entries of one row; of a list by place each zone is
// an entry of its own, with the zone after the place.
func flat(n *yaml.Node, fields []decode.Field, note string) (out line) {
	walk(n, fields, "", note, func(e entry, v *yaml.Node) {
		_, place, by := cutLast(e.path)
		if v.Kind != yaml.SequenceNode || !by || !slices.Contains(logbook.Wheels, place) {
			out = append(out, e)
			return
		}
		for i, zone := range v.Content {
			one := entry{path: e.path + " " + logbook.Zones[i], text: zone.Value, note: notesOf(zone)}
			if i == 0 {
				one.note = e.note
			}
			out = append(out, one)
		}
	})
	return out
}

// walk hands over the values of a mapping with the keys that their fields have,
// in whatever spelling they are written, and the comments that lead to them.
// Lists of mappings are left out.
func walk(n *yaml.Node, fields []decode.Field, outer, note string, put func(entry, *yaml.Node)) {
	for key, v := range decode.Pairs(n) {
		f := decode.Find(fields, key.Value)
		if f == nil {
			continue // what was loaded has none
		}
		path, typ := decode.Join(outer, f.Key), f.Value.Type()
		here := joinNotes(note, notesOf(key))
		keyed, apart := f.Value.Interface().(decode.Keyed)
		switch {
		case !f.Single() && typ.Kind() == reflect.Struct:
			walk(v, decode.FieldsOf(f.Value), path, joinNotes(here, notesOf(v)), put)
		case typ.Kind() == reflect.Map && len(f.Words) == 0 && !apart:
			put(entry{path, pairs(v), joinNotes(here, notesOf(v))}, v)
		case !f.Single() && (apart || typ.Kind() == reflect.Map):
			here = joinNotes(here, notesOf(v))
			for word, inner := range decode.Pairs(v) {
				p := decode.Join(path, cmp.Or(logbook.OneOf(f.Words, word.Value), word.Value))
				here = joinNotes(here, notesOf(word))
				switch {
				case apart:
					walk(inner, keyed.Fields(logbook.OneOf(f.Words, word.Value)), p, joinNotes(here, notesOf(inner)), put)
				case typ.Elem().Kind() == reflect.Struct:
					walk(inner, decode.FieldsOf(reflect.New(typ.Elem()).Elem()), p, joinNotes(here, notesOf(inner)), put)
				default:
					put(entry{p, text(inner), joinNotes(here, notesOf(inner))}, inner)
				}
				here = ""
			}
		case v.Kind == yaml.SequenceNode && len(v.Content) > 0 && v.Content[0].Kind == yaml.MappingNode:
			continue
		default:
			put(entry{path, text(v), joinNotes(here, notesOf(v))}, v)
		}
		note = ""
	}
}

// pairs is a mapping of words as a cell has it.
func pairs(n *yaml.Node) string {
	var out []string
	for key, v := range decode.Pairs(n) {
		out = append(out, key.Value+": "+v.Value)
	}
	if n.Kind != yaml.MappingNode {
		return n.Value
	}
	return strings.Join(out, ", ")
}

// text is a value as a cell has it.
func text(n *yaml.Node) string {
	if n.Kind != yaml.SequenceNode {
		return strings.TrimSpace(n.Value)
	}
	var list []string
	for _, c := range n.Content {
		list = append(list, strings.TrimSpace(c.Value))
	}
	return joined(list)
}

// notesOf are a node's comments in words.
func notesOf(n *yaml.Node) string {
	return joinNotes(joinNotes(plainly(n.HeadComment), plainly(n.LineComment)), plainly(n.FootComment))
}

// plainly is a comment without its marks.
func plainly(comment string) string {
	var out []string
	for line := range strings.Lines(comment) {
		line = strings.TrimSpace(line)
		out = append(out, strings.TrimPrefix(strings.TrimPrefix(line, "#"), " "))
	}
	return strings.TrimSpace(strings.Join(out, "\n"))
}

func joinNotes(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + "\n" + b
}

// comment hangs a note on a value: beside it where it is one line, above its key
// where it is more.
func comment(v *value, note string) {
	note = strings.TrimSpace(strings.ReplaceAll(note, "\r\n", "\n"))
	if note == "" {
		return
	}
	var b strings.Builder
	for i, line := range strings.Split(note, "\n") {
		if i > 0 {
			b.WriteString("\n")
		}
		b.WriteString(strings.TrimSpace("# " + line))
	}
	if strings.Contains(note, "\n") {
		v.name.HeadComment = b.String()
	} else {
		v.node.LineComment = b.String()
	}
}

// numeric says whether a key takes a plain number.
func numeric(k keys.Key) bool {
	_, whole := k.Value.Interface().(int)
	return whole || k.Path == numberKey || k.Path == legKey || k.Value.CanFloat() && measured(k) == nil && k.As != "turn"
}
