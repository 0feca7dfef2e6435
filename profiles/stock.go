package profiles

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

type catalogue struct {
	parts     map[string]Part
	model     Model
	reference []Corner
}

// stock reads the embedded files once; an error in them is a fault of this package.
var stock = sync.OnceValues(func() (catalogue, error) {
	var errs Errors
	c := catalogue{parts: map[string]Part{}}
	for _, kind := range kinds {
		if own := kind.Limited; own != nil {
			stockParts(limitedFile, own.common, own.parts, kind.Kind, c.parts, &errs)
			continue
		}
		file := "stock/" + string(kind.Kind) + ".yaml"
		root := decode.Document(stockFiles, file, decode.ByHand, &errs)
		stockParts(file, decode.Lookup(root, "common"), decode.Lookup(root, "parts"), kind.Kind, c.parts, &errs)
	}
	c.model.Sources = Sources{}
	stockModel("stock/model.yaml", &c.model, c.model.Sources, &errs)
	var lap struct {
		ReferenceLap []Corner
	}
	stockModel("stock/reference-lap.yaml", &lap, c.model.Sources, &errs)
	c.reference = lap.ReferenceLap
	return c, errs.Sorted()
})

func (p Part) clone() Part {
	p.Fit, p.Tools, p.Sources = slices.Clone(p.Fit), slices.Clone(p.Tools), maps.Clone(p.Sources)
	old := reflect.ValueOf(p.Kind.Info().block(&p)).Elem()
	fresh := reflect.New(old.Type().Elem())
	fresh.Elem().Set(old.Elem())
	old.Set(fresh)
	return p
}

func (p *Part) block() reflect.Value { return reflect.ValueOf(p.Kind.Info().block(p)).Elem().Elem() }

// PartFields lists the keys of a kind's parts: those of every part, then its own.
func PartFields(kind Kind) []decode.Field { p := newPart(kind); return p.fields() }

// KindOf is the kind of a stock part; "" where there is none of the name.
func KindOf(class string) Kind {
	c, _ := stock() // Load says what is wrong with it
	return c.parts[class].Kind
}

// fields are the part's keys: those of every part, then those of its kind.
func (p *Part) fields() []decode.Field { return decode.FieldsOf(reflect.ValueOf(p).Elem(), p.block()) }

func newPart(kind Kind) Part {
	p := Part{Kind: kind, Sources: Sources{}}
	block := reflect.ValueOf(kind.Info().block(&p)).Elem()
	block.Set(reflect.New(block.Type().Elem()))
	for _, f := range p.fields() {
		if f.Unknown == "absent" {
			f.SetUnknown()
		}
	}
	return p
}

// stockParts reads one kind's stock: values common to all its parts, and the
// list of parts with what sets them apart.
func stockParts(file string, common, items *yaml.Node, kind Kind, into map[string]Part, errs *Errors) {
	if items == nil {
		return
	}
	for _, item := range items.Content {
		p := newPart(kind)
		for _, n := range []*yaml.Node{common, item} {
			if n != nil {
				stockDecoder(file, p.Sources, errs).Mapping(n, "", p.fields())
			}
		}
		p.Class = p.ID
		for _, key := range []string{"id", "name"} {
			delete(p.Sources, key)
		}
		into[p.ID] = p
	}
}

func stockModel(file string, into any, sources Sources, errs *Errors) {
	if root := decode.Document(stockFiles, file, decode.ByHand, errs); root != nil {
		stockDecoder(file, sources, errs).Mapping(root, "", decode.FieldsIn(into))
	}
}

func stockDecoder(file string, sources Sources, errs *Errors) *decode.Decoder {
	d := decode.New(file, errs)
	d.Stock, d.Partial, d.Sources = true, true, sources
	return d
}

// lacks lists the needed keys that nothing has set.
func (p *Part) lacks() []string {
	var out []string
	for _, f := range p.fields() {
		if _, ok := p.Sources[f.Key]; f.Need && !ok && f.Key != "id" && f.Key != "name" && f.Key != "class" {
			out = append(out, f.Key)
		}
	}
	if more := p.Kind.Info().lacks; more != nil {
		out = append(out, more(p)...)
	}
	return out
}

func (p *Part) describe() string { return fmt.Sprintf("part %q", p.ID) }
