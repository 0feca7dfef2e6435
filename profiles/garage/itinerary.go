package garage

import (
	"cmp"
	"fmt"
	"maps"
	"path"
	"slices"
	"strconv"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/nearest"
)

// corners puts corners into the circuits that they are of.
func (b *Book) corners(t *table, rows []record) {
	byFile := b.grouped(t, rows, circuitKey, "circuits", numberKey)
	for _, file := range slices.Sorted(maps.Keys(byFile)) {
		for _, r := range byFile[file] {
			if b.docs[file] == nil {
				var known []string
				for _, name := range b.Names() {
					if path.Dir(name) == "circuits" {
						known = append(known, id(name))
					}
				}
				t.errs.Add(t.at(r.row, 1), nearest.Unknown("circuit", id(file), known), "an id of the sheet Circuits: "+nearest.OneOf(known), "")
				break
			}
			b.item(file, "corners", t, r, t.mapping(r))
		}
	}
}

// grouped are the rows of each document, in the order of their numbers, or of
// the sheet where they have none.
func (b *Book) grouped(t *table, rows []record, path, dir, number string) map[string][]record {
	out, numbers := map[string][]record{}, map[string][]int{}
	for _, r := range rows {
		file, ok := b.id(t, &r, path, dir)
		v, numbered := r.take(number)
		n := 0
		if numbered && !decode.Empty(v.node) {
			var err error
			if n, err = strconv.Atoi(v.node.Value); err != nil || n < 1 {
				t.errs.Add(decode.At("", v.node), fmt.Sprintf("%s: %q is not a whole number from 1", heading(number), nearest.Cut(v.node.Value)), "1 for the first", "")
				continue
			}
		}
		if kind, isLeg := t.kind(&r); isLeg && kind == tripKind {
			n = 0
		} else if ok && n > 0 {
			if had := slices.Index(numbers[file], n); had >= 0 {
				t.errs.Add(decode.At("", v.node), fmt.Sprintf("%s %d of %s is there twice", heading(number), n, id(file)), "each once", "")
			}
		}
		if ok {
			out[file], numbers[file] = append(out[file], r), append(numbers[file], n)
		}
	}
	for file, given := range numbers {
		order(t, out[file], given, number, id(file))
	}
	return out
}

// order puts rows in the order of their numbers, which go up from 1 without a gap.
func order(t *table, rows []record, given []int, number, of string) {
	inOrder := slices.Sorted(slices.Values(given))
	next := 1
	for _, n := range inOrder {
		switch {
		case n == 0:
		case n > next:
			i := slices.Index(given, n)
			t.errs.Add(t.at(rows[i].row, 1), fmt.Sprintf("%s %d of %s follows %d", heading(number), n, of, next-1), fmt.Sprintf("%d", next), "is a row missing?")
			return
		case n == next:
			next++
		}
	}
	if next == 1 {
		return // none is numbered: the order is that of the sheet
	}
	slots := map[int]int{}
	for i, r := range rows {
		slots[r.row] = given[i]
		if kind, leg := t.kind(&r); given[i] == 0 && !(leg && kind == tripKind) {
			t.errs.Add(t.at(r.row, 1), fmt.Sprintf("%s is missing beside others of %s", heading(number), of), "a number in each of its rows, or in none", "")
		}
	}
	slices.SortStableFunc(rows, func(a, b record) int { return cmp.Compare(slots[a.row], slots[b.row]) })
}

// kind is that of a row of Trips, which others do not have.
func (t *table) kind(r *record) (string, bool) {
	i := slices.IndexFunc(r.values, func(v value) bool { return v.key.Path == kindKey })
	if i < 0 || t.name != tripsSheet {
		return "", false
	}
	return nearest.Same(r.values[i].node.Value, r.values[i].key.Words), true
}

// trips puts the rows of a trip together: its own, and its legs.
func (b *Book) trips(t *table, rows []record) {
	byFile := b.grouped(t, rows, tripKey, "trips", legKey)
	for _, file := range slices.Sorted(maps.Keys(byFile)) {
		b.docs[file] = t.node(yaml.MappingNode, "!!map", "", byFile[file][0].row, 1)
		for _, r := range byFile[file] {
			b.leg(t, file, r)
		}
	}
}

func (b *Book) leg(t *table, file string, r record) {
	kind, ok := t.kind(&r)
	word, _ := r.take(kindKey)
	name, isNamed := r.take(nameKey)
	switch {
	case !ok:
		t.errs.Add(t.at(r.row, 1), "the row has no kind", nearest.OneOf(append([]string{tripKind}, "road", "circuit", "stop")), "")
		return
	case decode.Empty(word.node):
		return
	case kind == "":
		t.errs.Add(decode.At("", word.node), nearest.Unknown("kind", word.node.Value, word.key.Words), nearest.OneOf(word.key.Words), "")
		return
	case !isNamed:
		t.errs.Add(t.at(r.row, 1), "the row has no name", "the name of the "+kind, "")
		return
	}
	name.name.Value = kind
	r.values = slices.Insert(r.values, 0, name)
	if kind == tripKind {
		t.into(b.docs[file], r)
		return
	}
	b.item(file, "legs", t, r, t.mapping(r))
}
