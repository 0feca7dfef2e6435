package profiles

import (
	"fmt"
	"maps"
	"slices"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/nearest"
)

const partsFile = "parts.yaml"

// Limits on a list of parts, which a program may have written: a part of a
// class takes some 150 bytes, one with every value its own some 800.
const (
	partsBytes = 16 << 20
	mostParts  = 20_000
)

// parts reads parts.yaml: a list of parts, each its class's stock values with
// the owner's keys over them.
func (l *loader) parts(stock map[string]Part) {
	const file = partsFile
	for id, p := range stock {
		l.folder.Parts[id] = p.Clone()
	}
	if !l.exists(file) {
		return
	}
	root := l.document(file)
	if root == nil {
		l.broken["*"] = true
		return
	}
	items := decode.Lookup(root, "parts")
	if items == nil || items.Kind != yaml.SequenceNode || len(root.Content) != 2 {
		l.errs.Add(decode.At(file, root), "the file is not a list of parts", "one key, parts, with a list", "parts:, then one part after each dash")
		l.broken["*"] = true
		return
	}
	classes := slices.Sorted(maps.Keys(stock))
	first, before := map[string]Position{}, len(l.errs)
	for _, item := range items.Content {
		if len(l.errs)-before >= MostFaults {
			l.broken["*"] = true // those that were not looked at
			return
		}
		l.part(file, item, stock, classes, first)
	}
}

func (l *loader) part(file string, item *yaml.Node, stock map[string]Part, classes []string, first map[string]Position) {
	where := decode.At(file, item)
	const hint = "write {id: my-tires, class: tire-200, ...}"
	if item.Kind != yaml.MappingNode {
		l.errs.Add(where, "a part is "+decode.Form(item), "a mapping with id and class", hint)
		return
	}
	id := decode.Lookup(item, "id")
	if id == nil {
		l.errs.Add(where, `key "id" is missing`, "a word of your own for the part", hint)
		return
	}
	switch other, twice := first[id.Value]; {
	case twice:
		l.errs.Add(decode.At(file, id), fmt.Sprintf("id %q is given twice", nearest.Cut(id.Value)), "each part once", "it stands in "+other.Again()+" already")
		l.broken[id.Value] = true
		return
	case slices.Contains(classes, id.Value):
		l.errs.Add(decode.At(file, id), fmt.Sprintf("id %q is a stock part's", nearest.Cut(id.Value)), "a word of your own", "keep the stock part's id for class")
		l.broken[id.Value] = true
		return
	}
	first[id.Value] = decode.At(file, id)
	l.broken[id.Value] = true
	class := decode.Lookup(item, "class")
	if class == nil {
		l.errs.Add(where, `key "class" is missing`, "the stock part it starts from", "stock parts are "+nearest.List(classes))
		return
	}
	from, ok := stock[class.Value]
	if !ok {
		l.errs.Add(decode.At(file, class), nearest.Unknown("class", class.Value, classes), "the stock part it starts from", "stock parts are "+nearest.List(classes))
		return
	}

	before := len(l.errs)
	p := from.Clone()
	d := decode.New(file, &l.errs)
	d.Partial = true
	d.Mapping(item, "", p.Fields())
	maps.Copy(p.Sources, d.Sources)
	for _, key := range []string{"id", "class", "name"} {
		delete(p.Sources, key)
	}
	p.Printed()
	lacks := slices.DeleteFunc(p.Lacks(), func(key string) bool { _, given := d.At[key]; return given && len(l.errs) > before }) // it is wrong, not missing
	if len(lacks) > 0 {
		l.errs.Add(where, fmt.Sprintf("%s lacks %s", p.Describe(), nearest.List(lacks)), "", p.Lacking())
	}
	if len(l.errs) == before {
		l.checkPart(&p, d.At, where)
	}
	if len(l.errs) == before {
		delete(l.broken, p.ID)
		l.folder.Parts[p.ID] = p
	}
}

func (l *loader) checkPart(p *Part, where map[string]Position, item Position) {
	kind := p.Kind.Info()
	if kind.Check == nil {
		return
	}
	kind.Check(p, func(ok bool, what, expected string, keys ...string) {
		if ok {
			return
		}
		at := item
		for _, k := range keys {
			if pos, given := where[k]; given {
				at = pos
				break
			}
		}
		l.errs.Add(at, p.Describe()+": "+what, expected, "")
	})
}
