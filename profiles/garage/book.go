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
