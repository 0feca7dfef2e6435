package parts

import (
	"embed"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"sync"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/decode"
)

//go:embed stock/*.yaml
var stockFiles embed.FS

// Stock reads the embedded parts once, by id; an error in them is a fault of
// this package.
var Stock = sync.OnceValues(func() (map[string]Part, error) {
	var errs decode.Errors
	out := map[string]Part{}
	for _, kind := range kinds {
		if own := kind.Limited; own != nil {
			stockParts(limitedFile, own.common, own.parts, kind.Kind, out, &errs)
			continue
		}
		file := "stock/" + string(kind.Kind) + ".yaml"
		root := decode.Document(stockFiles, file, decode.ByHand, &errs)
		stockParts(file, decode.Lookup(root, "common"), decode.Lookup(root, "parts"), kind.Kind, out, &errs)
	}
	return out, errs.Sorted()
})

// Clone is a part that can be changed without the first one noticing.
func (p Part) Clone() Part {
	p.Fit, p.Tools, p.Sources = slices.Clone(p.Fit), slices.Clone(p.Tools), maps.Clone(p.Sources)
	old := reflect.ValueOf(p.Kind.Info().block(&p)).Elem()
	fresh := reflect.New(old.Type().Elem())
	fresh.Elem().Set(old.Elem())
	old.Set(fresh)
	return p
}

func (p *Part) block() reflect.Value { return reflect.ValueOf(p.Kind.Info().block(p)).Elem().Elem() }

// KindOf is the kind of a stock part; "" where there is none of the name.
func KindOf(class string) Kind {
	all, _ := Stock() // whoever loads them says what is wrong with it
	return all[class].Kind
}

// Fields are the part's keys: those of every part, then those of its kind.
func (p *Part) Fields() []decode.Field { return decode.FieldsOf(reflect.ValueOf(p).Elem(), p.block()) }

// New is a part of a kind of which nothing is known.
func New(kind Kind) Part {
	p := Part{Kind: kind, Sources: decode.Sources{}}
	block := reflect.ValueOf(kind.Info().block(&p)).Elem()
	block.Set(reflect.New(block.Type().Elem()))
	for _, f := range p.Fields() {
		if f.Unknown == "absent" {
			f.SetUnknown()
		}
	}
	return p
}

// stockParts reads one kind's stock: values common to all its parts, and the
// list of parts with what sets them apart.
func stockParts(file string, common, items *yaml.Node, kind Kind, into map[string]Part, errs *decode.Errors) {
	if items == nil {
		return
	}
	for _, item := range items.Content {
		p := New(kind)
		for _, n := range []*yaml.Node{common, item} {
			if n != nil {
				stockDecoder(file, p.Sources, errs).Mapping(n, "", p.Fields())
			}
		}
		p.Class = p.ID
		for _, key := range []string{"id", "name"} {
			delete(p.Sources, key)
		}
		into[p.ID] = p
	}
}

// ReadStock reads a file of the stock that holds no parts.
func ReadStock(file string, into any, sources decode.Sources, errs *decode.Errors) {
	if root := decode.Document(stockFiles, file, decode.ByHand, errs); root != nil {
		stockDecoder(file, sources, errs).Mapping(root, "", decode.FieldsIn(into))
	}
}

func stockDecoder(file string, sources decode.Sources, errs *decode.Errors) *decode.Decoder {
	d := decode.New(file, errs)
	d.Stock, d.Partial, d.Sources = true, true, sources
	return d
}

// Lacks lists the needed keys that nothing has set.
func (p *Part) Lacks() []string {
	var out []string
	for _, f := range p.Fields() {
		if _, ok := p.Sources[f.Key]; f.Need && !ok && f.Key != "id" && f.Key != "name" && f.Key != "class" {
			out = append(out, f.Key)
		}
	}
	if more := p.Kind.Info().lacks; more != nil {
		out = append(out, more(p)...)
	}
	return out
}

// Describe names the part where something is wrong with it.
func (p *Part) Describe() string { return fmt.Sprintf("part %q", p.ID) }
