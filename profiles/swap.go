package profiles

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/parts"
	"example.com/tripwear/profiles/quantity"
)

// Outfit is which parts are on where sets swap: by the id of a set, that of its
// part.
type Outfit map[string]string

// swapping lists the sets that may have parts aside.
func swapping() []Set {
	return slices.DeleteFunc(Sets(), func(s Set) bool { return !s.Kind.Info().Swaps })
}

// setsCalled are the sets that somebody names: one of them, or all of a kind.
// The words of an id are known whatever the set is called on screen: files keep
// them.
func setsCalled(name string) []Set {
	return slices.DeleteFunc(swapping(), func(s Set) bool {
		kind, axle, _ := strings.Cut(s.ID, "-")
		return nearest.Same(name, []string{s.ID, axle + " " + kind, kind, s.Name, s.Kind.Info().Plural}) == ""
	})
}

// Decode decodes parts by the names of their sets; as text, such as "front
// pads: pads-track, rear pads: pads-track-rear", or none: what is on stays on.
func (o *Outfit) Decode(d *decode.Decoder, n *yaml.Node, path string, _ decode.Field) {
	if n.Kind == yaml.ScalarNode {
		if strings.TrimSpace(n.Value) == "none" {
			*o = nil
			return
		}
		if !strings.Contains(n.Value, ":") {
			d.Fail(n, fmt.Sprintf("fit: %q names no set and its part", nearest.Cut(n.Value)), "sets with their parts, such as front pads: pads-track, or none", "")
			return
		}
		n = &yaml.Node{Kind: yaml.MappingNode, Line: n.Line, Column: n.Column, Anchor: n.Anchor, Content: inPairs(n)}
	}
	var names []string
	for _, s := range swapping() {
		names = append(names, s.Name)
	}
	if !d.IsMapping(n, path, names) {
		return
	}
	out := Outfit{}
	for key, value := range decode.Pairs(n) {
		sets := setsCalled(key.Value)
		if len(sets) == 0 {
			d.Fail(key, nearest.Unknown("set", key.Value, names), nearest.OneOf(names), "such as fit: {front pads: pads-track}")
			continue
		}
		for _, s := range sets {
			if _, twice := out[s.ID]; twice {
				d.Fail(key, "the "+s.Name+" are given twice", "each once", "")
				continue
			}
			var on struct {
				Part string `need:"yes"`
			}
			d.Mapping(&yaml.Node{Kind: yaml.MappingNode, Content: []*yaml.Node{{Kind: yaml.ScalarNode, Value: "part"}, value}}, decode.Join(path, s.ID), decode.FieldsIn(&on))
			d.Seen(value, decode.Join(path, s.ID))
			if out[s.ID] = on.Part; on.Part == "" {
				delete(out, s.ID)
			}
		}
	}
	*o = out
}

func inPairs(n *yaml.Node) (out []*yaml.Node) {
	for pair := range strings.SplitSeq(n.Value, ",") {
		set, part, _ := strings.Cut(pair, ":")
		for _, text := range []string{set, part} {
			one := *n
			one.Value = strings.TrimSpace(text)
			out = append(out, &one)
		}
	}
	return out
}

// fits checks what a trip and its legs say is on. One that was driven may name
// what the car no longer has.
func (l *loader) fits(t Trip, where map[string]Position) {
	if slices.ContainsFunc(l.folder.Log, func(e logbook.Entry) bool { return e.What == logbook.Trip && e.Text == t.ID }) {
		return
	}
	check := func(o Outfit, path string) {
		for _, id := range slices.Sorted(maps.Keys(o)) {
			if fault := l.folder.unworn(id, o[id]); fault != nil {
				l.errs.Fault(where[decode.Join(path, id)], *fault)
			}
		}
	}
	check(t.Fit, "fit")
	for i, leg := range t.Legs {
		check(leg.Fit, fmt.Sprintf("legs[%d].fit", i))
	}
}

// Unworn says what is wrong with a trip that wants on what the car does not have.
func (f *Folder) Unworn(t Trip) error {
	l := loader{folder: f}
	t.ID = "" // it is to be driven
	l.fits(t, map[string]Position{})
	return l.errs.Sorted()
}

func (f *Folder) unworn(id, part string) *logbook.Fault {
	sets := swapping()
	s := sets[slices.IndexFunc(sets, func(s Set) bool { return s.ID == id })]
	has := append(f.Asides(s), f.onSet(s))
	if slices.Contains(has, part) || f.onSet(s) == "" {
		return nil
	}
	return &logbook.Fault{
		What: fmt.Sprintf("part %q is neither on the car nor aside for the %s", part, s.Name), Expected: nearest.OneOf(has),
		Hint: "list it under fitted in car.yaml, with aside: true",
	}
}

// onSet is the part that a set on the car is; "" where there is none.
func (f *Folder) onSet(s Set) string {
	part, _ := f.On(s.Kind, s.At[0])
	return part.ID
}

// Asides are the parts that lie aside for a set, in the order of car.yaml.
func (f *Folder) Asides(s Set) []string {
	var out []string
	for i := range f.Car.Aside {
		if e := &f.Car.Aside[i]; f.Parts[e.Part].Kind == s.Kind && slices.Contains(e.At, s.At[0]) {
			out = parts.Union(out, []string{e.Part})
		}
	}
	return out
}

// Owns says whether a part lies aside for a set.
func (f *Folder) Owns(set, part string) bool {
	return slices.ContainsFunc(swapping(), func(s Set) bool { return s.ID == set && slices.Contains(f.Asides(s), part) })
}

// Swapping lists the parts that lie aside, and those on the car that they swap with.
func (f *Folder) Swapping() []string {
	var out []string
	for _, s := range swapping() {
		if aside := f.Asides(s); len(aside) > 0 {
			out = append(out, append(aside, f.onSet(s))...)
		}
	}
	return out
}

// Worn is what is on where sets swap, as the car stands.
func (f *Folder) Worn() Outfit {
	out := Outfit{}
	for _, s := range swapping() {
		if len(f.Asides(s)) > 0 {
			out[s.ID] = f.onSet(s)
		}
	}
	return out
}

// Wearing is the folder with other parts on the car, and what they take the
// place of aside; the folder itself where they are on.
func (f *Folder) Wearing(o Outfit) *Folder {
	var out *Folder
	for _, s := range swapping() {
		part, given := o[s.ID]
		if !given || part == f.onSet(s) {
			continue
		}
		if out == nil {
			other := *f
			other.Car.Fitted, other.Car.Aside = slices.Clone(f.Car.Fitted), slices.Clone(f.Car.Aside)
			out = &other
		}
		out.swap(s, part)
	}
	if out == nil {
		return f
	}
	return out
}

// swap puts a part of a set that lies aside on, and the one that is on aside.
func (f *Folder) swap(s Set, part string) {
	for _, at := range s.At {
		f.exchange(s.Kind, at, part)
	}
}

// exchange puts a part that lies aside on at a place, and the one there aside.
func (f *Folder) exchange(k Kind, at, part string) {
	i := f.holder(k, at)
	j := slices.IndexFunc(f.Car.Aside, func(e Fitted) bool { return e.Part == part && slices.Contains(e.At, at) })
	if i < 0 || j < 0 {
		return
	}
	on, off := f.Car.Fitted[i], f.Car.Aside[j]
	on.Aside, off.Aside = true, false
	f.Car.Fitted, f.Car.Aside = without(f.Car.Fitted, i, at), without(f.Car.Aside, j, at)
	f.Car.Fitted, f.Car.Aside = append(f.Car.Fitted, off.Only([]string{at})), append(f.Car.Aside, on.Only([]string{at}))
}

// without takes a place off an entry, and the entry out where it has no other.
func without(entries []Fitted, i int, at string) []Fitted {
	entries = slices.Clone(entries)
	rest := slices.DeleteFunc(slices.Clone(entries[i].At), func(place string) bool { return place == at })
	if len(rest) == 0 {
		return slices.Delete(entries, i, i+1)
	}
	entries[i] = entries[i].Only(rest)
	return entries
}

// held are the entries of a kind at a place: the one on the car, then those
// aside.
func (f *Folder) held(k Kind, at string) []*Fitted {
	var out []*Fitted
	for _, list := range [][]Fitted{f.Car.Fitted, f.Car.Aside} {
		for i := range list {
			if f.Parts[list[i].Part].Kind == k && slices.Contains(list[i].At, at) {
				out = append(out, &list[i])
			}
		}
	}
	return out
}

// aside checks an entry that is off the car.
func (l *loader) aside(where map[string]Position, path string, e *Fitted, part Part, beside map[Kind]map[string][]string) {
	kind := part.Kind.Info()
	if !kind.Swaps {
		var swaps []string
		for _, k := range Kinds() {
			if k.Swaps {
				swaps = append(swaps, string(k.Kind))
			}
		}
		l.errs.Add(where[path+".aside"], fmt.Sprintf("%s of kind %s cannot be aside", part.Describe(), part.Kind), "a part of kind "+nearest.OneOf(swaps)+", which swaps with those on the car", "what lies at home as a spare is listed under shelf")
		return
	}
	if _, given := where[path+".distance"]; !given {
		l.errs.Add(where[path], fmt.Sprintf("%s is aside and has no distance", part.Describe()), "the miles driven on it so far, such as distance: 4000 mi", "distance: 0 mi where it is new")
	}
	for _, s := range kind.Sets {
		mine := slices.DeleteFunc(slices.Clone(s.At), func(at string) bool { return !slices.Contains(e.At, at) })
		if len(mine) > 0 && len(mine) < len(s.At) {
			l.errs.Add(where[path+".at"], fmt.Sprintf("%s is aside for %s alone", part.Describe(), nearest.List(mine)), nearest.List(s.At)+", which are swapped together", "")
		}
	}
	if beside[part.Kind] == nil {
		beside[part.Kind] = map[string][]string{}
	}
	for _, at := range e.At {
		if slices.Contains(beside[part.Kind][at], e.Part) {
			l.errs.Add(where[path], fmt.Sprintf("a second %s aside for %s", e.Part, at), "an id of its own for each set", twoAlike(e.Part))
		}
		beside[part.Kind][at] = append(beside[part.Kind][at], e.Part)
	}
}

func twoAlike(part string) string {
	return fmt.Sprintf("two sets that are alike are two parts: {id: %s-2, class: ..., name: ...} in parts.yaml", part)
}

// besides parts the entries aside from those on the car, and holds each against
// the one at its places.
func (l *loader) besides(where map[string]Position, holder map[Kind]map[string]int) {
	car := &l.folder.Car
	var on []Fitted
	for i, e := range car.Fitted {
		if !e.Aside {
			on = append(on, e)
			continue
		}
		k := l.folder.Parts[e.Part].Kind
		pos := where[fmt.Sprintf("fitted[%d]", i)]
		at := slices.IndexFunc(e.At, func(at string) bool {
			other, ok := holder[k][at]
			return !ok && !k.Info().Needed || ok && car.Fitted[other].Part == e.Part
		})
		if at >= 0 {
			if _, ok := holder[k][e.At[at]]; ok {
				l.errs.Add(pos, fmt.Sprintf("%s is on the car and aside for %s", e.Part, e.At[at]), "an id of its own for each set", twoAlike(e.Part))
			} else {
				l.errs.Add(pos, fmt.Sprintf("%s is aside for %s, where none is on the car", e.Part, e.At[at]), "one on the car that it swaps with", "")
			}
		}
		car.Aside = append(car.Aside, e)
	}
	car.Fitted = on
}

// swapped checks a row that puts a part back on.
func (h *History) swapped(e logbook.Entry, part Part) []logbook.Fault {
	if !part.Kind.Info().Swaps {
		return []logbook.Fault{{What: fmt.Sprintf("%s of kind %s does not go on used", part.Describe(), part.Kind), Expected: "a part that swaps: tires, pads or rotors", Hint: "a new one is a row replaced"}}
	}
	for _, at := range e.At() {
		on, aside := h.known(part.Kind, at, e.Odometer)
		if !slices.Contains(aside, part.ID) && (part.ID != on || e.Odometer > h.start.Written) {
			what := fmt.Sprintf("%s does not lie aside for %s", part.Describe(), at)
			if part.ID == on {
				what = fmt.Sprintf("%s is on at %s already", part.Describe(), at)
			}
			expected := nearest.OneOf(aside)
			if len(aside) == 0 {
				expected = "a part that does"
			}
			return []logbook.Fault{{What: what, Expected: expected, Hint: "list a used part under fitted in car.yaml, with aside: true; a new one is a row replaced"}}
		}
	}
	return h.pair(e, part)
}

// known is the part on at a place at an odometer, and those that lie aside then.
// Which of them was on before car.yaml's odometer only the rows say.
func (h *History) known(k Kind, at string, odometer quantity.Length) (on string, aside []string) {
	if fit := h.fit(k, at); fit != nil {
		on = fit.Part
	}
	for _, e := range h.start.Aside {
		if h.folder.Parts[e.Part].Kind == k && slices.Contains(e.At, at) {
			aside = append(aside, e.Part)
		}
	}
	rows := h.by["new "+string(k)+" "+at]
	for _, i := range rows[:h.upTo(rows, odometer)] {
		e := h.rows[i]
		switch {
		case e.Odometer < h.start.Written:
		case e.What == logbook.Fitted && slices.Contains(aside, e.Text):
			aside = slices.DeleteFunc(aside, func(part string) bool { return part == e.Text })
			aside, on = append(aside, on), e.Text
		case e.Replaces() && e.Text != "":
			on = e.Text
		}
	}
	return on, aside
}

// bench refuses a reading of a part that does not lie aside there.
func (h *History) bench(kind KindInfo, e logbook.Entry) []logbook.Fault {
	on, aside := h.known(kind.Kind, e.Place, e.Odometer)
	if e.Part == on || slices.Contains(aside, e.Part) {
		return nil
	}
	return []logbook.Fault{{What: fmt.Sprintf("%s: %s does not lie aside for it", e.Subject(), e.Part), Expected: nearest.OneOf(append(aside, on)),
		Hint: "list a used part under fitted in car.yaml, with aside: true"}}
}

// onlyAside refuses a new part of those that lie aside: what it takes the place
// of would be a guess.
func (h *History) onlyAside(e logbook.Entry, part Part) []logbook.Fault {
	for _, at := range e.At() {
		if _, aside := h.known(part.Kind, at, e.Odometer); e.Odometer > h.start.Written && slices.Contains(aside, part.ID) {
			return []logbook.Fault{{What: fmt.Sprintf("%s lies aside for %s", part.Describe(), at), Expected: "a new set of what is on the car",
				Hint: fmt.Sprintf("log fitted %s first, then replaced: what is on now is kept aside", part.ID)}}
		}
	}
	return nil
}
