package garage

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/sheet"
)

// mostFaults is how many faults of a workbook are looked for.
const mostFaults = 200

// Book is a garage that was read. What it says has been understood or is a
// fault; whether it makes a car is for profiles.Load to say.
type Book struct {
	fs.FS // the folder that the workbook lies in

	name    string
	data    []byte
	tables  map[string]*table
	docs    map[string]*yaml.Node
	log     []logbook.Given
	waiting []logbook.Entry // rows beside it that the sheet does not have yet
	faults  profiles.Errors
	unread  []string // sheets that are the owner's own
}

// Is says whether a name is that of a workbook.
func Is(file string) bool { return strings.EqualFold(path.Ext(file), ".xlsx") }

// Open reads a garage in a folder. The error is profiles.Errors.
func Open(folder fs.FS, file string) (*Book, error) {
	refuse := func(what, hint string) (*Book, error) {
		return nil, profiles.Errors{{Position: decode.Position{File: file}, What: what, Expected: "a workbook that tripwear new made, saved as .xlsx", Hint: hint}}
	}
	f, wrong := decode.Open(folder, file)
	if wrong != "" {
		return refuse(wrong, "tripwear new garage.xlsx starts one")
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, sheet.MostBytes+1))
	if err != nil {
		return refuse(decode.Reason(err), "")
	}
	book, err := sheet.Open(bytes.NewReader(data), int64(len(data)))
	switch {
	case err != nil:
		return refuse(err.Error(), "")
	case book.Macros:
		return refuse("it holds macros", "save it as .xlsx, which leaves them out")
	}
	b := &Book{FS: folder, name: file, data: data, docs: map[string]*yaml.Node{}, tables: map[string]*table{}}
	b.read(book)
	b.wait()
	return b, nil
}

// read takes the sheets one by one.
func (b *Book) read(book *sheet.Book) {
	all := layouts()
	known := []string{wordsSheet}
	for _, l := range all {
		known = append(known, l.name)
	}
	found, others := map[string]string{}, []string(nil)
	for _, tab := range book.Sheets {
		is := nearest.Same(tab.Name, known)
		switch {
		case is == "":
			others = append(others, tab.Name)
		case is == wordsSheet:
		case tab.Hidden:
			b.faults.Add(decode.Position{File: b.name + ": " + tab.Name}, "the sheet is hidden", "a sheet that one sees", "show it: what it says would be planned with")
		case found[is] != "":
			b.faults.Add(decode.Position{File: b.name + ": " + tab.Name}, "a second sheet "+is, "one", "rename the one that is not meant")
		}
		if is != "" {
			found[is] = cmp.Or(found[is], tab.Name)
		}
	}
	b.strangers(book, all, found, others)
	for _, l := range all {
		if found[l.name] == "" {
			if l.name == carSheet || l.name == fittedSheet {
				b.faults.Add(decode.Position{File: b.name}, "it has no sheet "+l.name, "the sheets that tripwear new makes", "")
			}
			continue
		}
		page, err := book.Page(found[l.name])
		if err != nil {
			b.faults.Add(decode.Position{File: b.name + ": " + l.name}, err.Error(), "a sheet that can be read", "")
			continue
		}
		t := &table{layout: l, tab: found[l.name], file: b.name + ": " + found[l.name] + "!", page: page, errs: &b.faults}
		b.tables[l.name] = t
		b.fill(t, t.records())
	}
}

// strangers are sheets of other names: one with the headings of a sheet that is
// missing is that one renamed, any other the owner's own.
func (b *Book) strangers(book *sheet.Book, all []layout, found map[string]string, others []string) {
	for _, name := range others {
		page, err := book.Page(name)
		was := ""
		for _, l := range all {
			if err == nil && found[l.name] == "" && len(page.Rows) > 0 && l.like(page.Rows[0]) {
				was = l.name
			}
		}
		if was == "" {
			b.unread = append(b.unread, name)
			continue
		}
		b.faults.Add(decode.Position{File: b.name + ": " + name}, "the sheet has the headings of "+was+", which is missing", "the name "+was, "rename the sheet")
	}
}

// like says whether most of a row are the sheet's headings.
func (l layout) like(head sheet.Row) bool {
	hits := 0
	for n := range head.Cells {
		known := l.keys
		if l.lines {
			continue // what and value head any list
		}
		if _, ok := find(known, head.Text(n)); ok {
			hits++
		}
	}
	return hits > 1 && 2*hits >= len(head.Cells)
}

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

// logbook takes the rows of the logbook.
func (b *Book) logbook(t *table, rows []record) {
	for _, r := range rows {
		g := logbook.Given{Line: r.row, Fields: logbook.Row{}, Column: map[string]int{}}
		whole := true
		for _, c := range t.columns {
			g.Column[c.path] = c.number
		}
		for _, v := range r.values {
			g.Fields[v.key.Path] = v.node.Value
			whole = whole && !decode.Empty(v.node)
		}
		if whole {
			b.log = append(b.log, g)
		}
	}
}

// Names implements profiles.Documents.
func (b *Book) Names() []string {
	out := slices.Collect(maps.Keys(b.docs))
	if len(b.log)+len(b.waiting) > 0 {
		out = append(out, profiles.LogFile)
	}
	slices.Sort(out)
	return out
}

// Document implements profiles.Documents.
func (b *Book) Document(file string) *yaml.Node { return b.docs[file] }

// Faults implements profiles.Documents.
func (b *Book) Faults() profiles.Errors { return slices.Clone(b.faults) }

// Unread implements profiles.Documents.
func (b *Book) Unread() []string {
	var out []string
	for _, name := range b.unread {
		out = append(out, b.name+": the sheet "+name)
	}
	return out
}

// Notes are what an owner should know of his workbook.
func (b *Book) Notes() (out []string) {
	for _, u := range b.Unread() {
		out = append(out, u+" is not read")
	}
	if n := len(b.waiting); n > 0 {
		out = append(out, fmt.Sprintf("rows that wait in %s to go into the workbook: %d; they count", WaitingFile(b.name), n))
	}
	return out
}

// Log implements profiles.Documents: the rows of the sheet, then those that wait.
func (b *Book) Log() (logbook.Log, []logbook.Fault, string) {
	log, faults := logbook.Of(b.rows())
	return log, faults, b.name + ": " + logSheet + "!"
}

// rows are those of the sheet and those that wait, as if they stood below.
func (b *Book) rows() []logbook.Given {
	out, last := slices.Clone(b.log), 2
	if len(out) > 0 {
		last = out[len(out)-1].Line
	}
	for i, e := range b.waiting {
		out = append(out, logbook.Given{Line: last + 1 + i, Fields: e.Row()})
	}
	return out
}

// cellOf is the first cell of a range.
func cellOf(ref string) (row, col int) {
	first, _, _ := strings.Cut(ref, ":")
	letters := strings.TrimRight(first, "0123456789")
	row, _ = strconv.Atoi(first[len(letters):]) // a range that is none is at the top
	return max(1, row), max(1, sheet.Column(letters))
}
