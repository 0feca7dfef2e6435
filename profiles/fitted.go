package profiles

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/parts"
	"example.com/tripwear/profiles/quantity"
)

// fitted checks what is on the car and on the shelf against the parts.
func (l *loader) fitted(where map[string]Position, carOK bool) {
	holder, beside := map[Kind]map[string]int{}, map[Kind]map[string][]string{}
	whole := carOK
	for i := range l.folder.Car.Fitted {
		part, ok := l.resolve(where, fmt.Sprintf("fitted[%d].part", i), l.folder.Car.Fitted[i].Part)
		before := len(l.errs)
		l.finds(where, i, part.Kind.Info())
		if ok {
			l.entry(where, i, part, holder, beside)
		}
		whole = whole && ok && len(l.errs) == before
	}
	for i, s := range l.folder.Car.Shelf {
		l.resolve(where, fmt.Sprintf("shelf[%d].part", i), s.Part)
	}
	if whole {
		l.covered(where["fitted"], holder)
		l.pairs(where, holder)
		l.besides(where, holder)
	}
}

// resolve finds a part that the car names. It is silent where the error lies
// with the part itself.
func (l *loader) resolve(where map[string]Position, path, id string) (Part, bool) {
	part, ok := l.folder.Parts[id]
	if id == "" || l.broken[id] || !ok && l.broken["*"] {
		return Part{}, false
	}
	wrong := l.folder.unfit(id)
	for _, fault := range wrong {
		l.errs.Fault(where[path], fault)
	}
	return part, len(wrong) == 0
}

// unfit says why a part cannot go on a car, if so: nobody knows it, or it is a
// stock part that leaves figures to its owner.
func (f *Folder) unfit(id string) []logbook.Fault {
	part, ok := f.Parts[id]
	if !ok {
		ids := slices.Sorted(maps.Keys(f.Parts))
		own := slices.DeleteFunc(slices.Clone(ids), func(id string) bool { return f.Parts[id].Class == id })
		return []logbook.Fault{{What: nearest.Unknown("part", id, ids), Expected: "an id of parts.yaml or a stock part", Hint: "parts.yaml has " + nearest.OneOf(own)}}
	}
	if lacks := part.Lacks(); len(lacks) > 0 {
		return []logbook.Fault{{
			What: fmt.Sprintf("stock part %q lacks %s", id, nearest.List(lacks)), Expected: "a part of your own that has them",
			Hint: fmt.Sprintf("write {id: my-part, class: %s, %s: ...} in parts.yaml", id, part.ByPrint(lacks[0])),
		}}
	}
	return nil
}

// finds checks the words under found: the kind's, or any where it is not known.
func (l *loader) finds(where map[string]Position, i int, kind KindInfo) {
	for _, place := range parts.Places() {
		word, ok := l.folder.Car.Fitted[i].Found[place]
		if known := kind.Finds("found"); ok && word != "" && !slices.Contains(known, string(word)) {
			l.errs.Add(where[fmt.Sprintf("fitted[%d].found.%s", i, place)], "found."+place+": "+nearest.Unknown("word", string(word), known), nearest.OneOf(known), "")
		}
	}
}

func (l *loader) entry(where map[string]Position, i int, part Part, holder map[Kind]map[string]int, beside map[Kind]map[string][]string) {
	path := fmt.Sprintf("fitted[%d]", i)
	e := &l.folder.Car.Fitted[i]
	kind := part.Kind.Info()
	allowed := kind.Places()
	if holder[part.Kind] == nil {
		holder[part.Kind] = map[string]int{}
	}
	for j, at := range e.At {
		pos := where[fmt.Sprintf("%s.at[%d]", path, j)]
		if at == "" {
			continue // an unknown word, reported
		}
		if !slices.Contains(allowed, at) {
			l.errs.Add(pos, fmt.Sprintf("%s cannot be at %s", part.Describe(), at), nearest.OneOf(allowed), "")
			continue
		}
		if e.Aside {
			continue
		}
		if other, taken := holder[part.Kind][at]; taken {
			first := "the first is " + l.folder.Car.Fitted[other].Part + " in " + where[fmt.Sprintf("fitted[%d]", other)].Again()
			if kind.Swaps {
				first += "; write aside: true with the one that is off the car"
			}
			l.errs.Add(pos, fmt.Sprintf("a second %s at %s", part.Kind, at), "one at each place", first)
			continue
		}
		holder[part.Kind][at] = i
	}
	if e.Aside {
		l.aside(where, path, e, part, beside)
	}
	if _, given := where[path+".distance"]; given {
		e.Partly = true
	}
	since := path + ".since."
	if _, given := where[since+"odometer"]; given {
		if e.Since.Unmetered = !quantity.Known(e.Since.Odometer); e.Since.Unmetered {
			e.Since.Odometer = 0
		}
	}
	_, dated := where[since+"date"]
	if dated {
		e.Since.Undated = e.Since.Date.IsZero()
	}
	if e.Since.Odometer > l.folder.Car.Odometer && l.folder.Car.Odometer > 0 {
		l.errs.Add(where[path+".since.odometer"], "since.odometer is past the car's odometer", fmt.Sprintf("at most %s (%s)", quantity.Distance[quantity.US].Text(float64(l.folder.Car.Odometer)), quantity.Distance[quantity.Metric].Text(float64(l.folder.Car.Odometer))), "")
	}
	if !dated && !e.Since.Undated && kind.Dated {
		l.errs.Add(where[path], fmt.Sprintf("%s has no since.date", part.Describe()), "the day it went on, as it ages with time", "")
	}
	l.measured(where, path, e, part, kind)
}

func (l *loader) measured(where map[string]Position, path string, e *Fitted, part Part, kind KindInfo) {
	for _, key := range parts.FittedKeys() {
		pos, given := where[path+"."+key]
		e.Note(key, pos)
		if given && !kind.Has(key) {
			l.errs.Add(pos, fmt.Sprintf("key %q is not for %s, which is of kind %s", key, part.Describe(), part.Kind), "readings of its kind", "")
		}
	}
	if e.Grade != "" && part.Kind != Fluid {
		l.errs.Add(where[path+".grade"], fmt.Sprintf("key \"grade\" is not for %s, which is of kind %s", part.Describe(), part.Kind), "brake fluid", "")
	}
	for _, place := range parts.Places() {
		for _, r := range kind.Readings {
			if r.Key == "" || e.Value(r.Key).Kind() != reflect.Map {
				continue
			}
			if v := e.Value(r.Key).MapIndex(reflect.ValueOf(place)); v.IsValid() {
				pos := where[decode.Join(decode.Join(path, r.Key), place)]
				e.Note(r.Key+" "+place, pos)
				l.reading(pos, e, &part, r, place, v)
			}
		}
	}
}

func (l *loader) reading(pos Position, e *Fitted, part *Part, r Reading, place string, v reflect.Value) {
	if !slices.Contains(e.At, place) && !slices.Contains(e.At, "") { // an unknown word, reported
		l.errs.Add(pos, fmt.Sprintf("a reading at %s, where this part is not", place), nearest.OneOf(e.At), "")
	}
	if v.Kind() == reflect.Slice && v.Len() != len(logbook.Zones) {
		l.errs.Add(pos, fmt.Sprintf("%s at %s has %d values", r.Key, place, v.Len()), "three: "+strings.Join(logbook.Zones, ", "), "")
	}
	var deepest quantity.Length
	switch v := v.Interface().(type) {
	case quantity.Length:
		deepest = v
	case []quantity.Length:
		deepest = slices.Max(append([]quantity.Length{0}, v...))
	}
	if r.New != nil && deepest > r.New(part) {
		l.errs.Add(pos, fmt.Sprintf("%s at %s is more than new", r.Key, place), "at most "+both(r.New(part)), fmt.Sprintf("measure again, or correct %s of %s", r.NewKey, part.Describe()))
	}
}

func (l *loader) covered(pos Position, holder map[Kind]map[string]int) {
	for _, k := range Kinds() {
		bare := slices.DeleteFunc(k.Places(), func(at string) bool {
			_, ok := holder[k.Kind][at]
			return ok || !k.Needed
		})
		if len(bare) > 0 {
			l.errs.Add(pos, fmt.Sprintf("no %s fitted at %s", k.Kind, strings.Join(bare, ", ")), "one at each place", "list it under fitted with part, at and since")
		}
	}
}

// pairs reports sets whose places carry different parts.
func (l *loader) pairs(where map[string]Position, holder map[Kind]map[string]int) {
	for _, s := range Sets() {
		for i := 1; i < len(s.At); i++ {
			left, okLeft := holder[s.Kind][s.At[i-1]]
			right, okRight := holder[s.Kind][s.At[i]]
			if !okLeft || !okRight {
				continue
			}
			a, b := l.folder.Car.Fitted[left].Part, l.folder.Car.Fitted[right].Part
			if a != b {
				l.errs.Add(where[fmt.Sprintf("fitted[%d].part", max(left, right))],
					fmt.Sprintf("%s of %s and %s differ: %s and %s", s.Kind, s.At[i-1], s.At[i], a, b), "the same part on both wheels of an axle", "they are replaced together, as a set")
			}
		}
	}
}
