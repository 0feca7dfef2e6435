package garage

import (
	"fmt"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
	"testing/fstest"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/keys"
)

// groupOf is the group of keys that the top of a document has.
func groupOf(file string) string {
	switch dir := path.Dir(file); dir {
	case "circuits", "trips", "oil":
		return dir + "/ID.yaml"
	}
	return file
}

// itemsOf is the group of a list's items.
var itemsOf = map[string]string{"fitted": "each of fitted", "shelf": "each of shelf", "corners": "each of corners"}

func partOf(kind profiles.Kind) string { return "a part of " + string(kind) }

// explainColumn is where explanations begin.
const explainColumn = 31

// Explain is a car folder whose keys say what they are: where a value ends its
// line and nothing is said of it yet, the words that its key has stand behind it,
// the first time that the file has the key.
func Explain(folder fs.FS) (fstest.MapFS, error) {
	docs := map[string]map[string]string{}
	for _, g := range keys.All() {
		docs[g.Of] = map[string]string{}
		for _, k := range g.Keys {
			docs[g.Of][k.Path] = k.Doc
		}
	}
	for _, kind := range profiles.Kinds() { // a part has the keys of all and those of its kind
		own := docs["and of "+string(kind.Kind)]
		docs[partOf(kind.Kind)] = maps.Clone(docs["each of parts.yaml"])
		maps.Copy(docs[partOf(kind.Kind)], own)
	}
	out := fstest.MapFS{}
	err := fs.WalkDir(folder, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(folder, name)
		out[name] = &fstest.MapFile{Data: data}
		if err != nil || path.Ext(name) != ".yaml" {
			return err
		}
		var errs decode.Errors
		root := document(folder, name, &errs)
		if root == nil {
			return errs.Sorted()
		}
		x := &explaining{docs: docs, lines: strings.Split(string(data), "\n"), last: map[int]string{}, seen: map[string]bool{}}
		x.values(root, groupOf(name), "")
		out[name].Data = []byte(strings.Join(x.explained(), "\n"))
		return nil
	})
	return out, err
}

type explaining struct {
	docs  map[string]map[string]string
	lines []string
	last  map[int]string // by line, what is said of the key that ends it; "" where several do
	seen  map[string]bool
}

// values finds the values that stand alone in their line.
func (x *explaining) values(n *yaml.Node, group, outer string) {
	for key, v := range decode.Pairs(n) {
		at := decode.Join(outer, key.Value)
		switch {
		case v.Kind == yaml.MappingNode && x.docs[group][at] == "":
			x.values(v, group, at)
		case v.Kind == yaml.SequenceNode && len(v.Content) > 0 && v.Content[0].Kind == yaml.MappingNode:
			for _, item := range v.Content {
				of := itemsOf[key.Value]
				if class := decode.Lookup(item, "class"); class != nil {
					of = partOf(profiles.KindOf(class.Value))
				}
				x.values(item, of, "")
			}
		default:
			doc, line := x.docs[group][at], key.Line // where the value is a block, beside its key
			if _, taken := x.last[line]; taken || x.seen[at+doc] {
				doc = ""
			}
			x.last[line] = doc
			x.seen[at+doc] = true
		}
	}
}

func (x *explaining) explained() []string {
	out := slices.Clone(x.lines)
	for i, line := range out {
		if doc := x.last[i+1]; doc != "" && !strings.Contains(line, "#") {
			out[i] = fmt.Sprintf("%-*s# %s", explainColumn, line+" ", doc)
		}
	}
	return out
}
