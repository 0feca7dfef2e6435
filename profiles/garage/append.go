package garage

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing/fstest"
	"time"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/durable"
	"example.com/tripwear/profiles/keys"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/sheet"
)

// Row is a row to add to a sheet: texts by key, as a file has them.
type Row map[string]string

// Rows are rows to add, by sheet.
type Rows map[string][]Row

// WaitingFile is the logbook of rows that the workbook does not have yet.
func WaitingFile(workbook string) string {
	return strings.TrimSuffix(workbook, filepath.Ext(workbook)) + ".waiting.csv"
}

// OpenElsewhere says that another program has the workbook open: what is
// written meanwhile would be lost when that one saves.
type OpenElsewhere struct {
	Path, Lock string
}

// Error implements error.
func (e *OpenElsewhere) Error() string { return e.Path + " is open in another program" }

// Hint says what to do.
func (e *OpenElsewhere) Hint() string {
	return "close it there; if no program has it open, remove " + e.Lock
}

// elsewhere looks for what spreadsheet programs leave beside a file that they
// have open.
func elsewhere(path string) error {
	dir, name := filepath.Split(path)
	for _, lock := range []string{".~lock." + name + "#", "~$" + name, "~$" + name[min(2, len(name)):]} {
		if _, err := os.Lstat(filepath.Join(dir, lock)); err == nil {
			return &OpenElsewhere{path, filepath.Join(dir, lock)}
		}
	}
	return nil
}

// wait reads the rows that wait beside the workbook.
func (b *Book) wait() {
	file := WaitingFile(b.name)
	if _, err := fs.Stat(b.FS, file); errors.Is(err, fs.ErrNotExist) {
		return
	}
	f, wrong := decode.Open(b.FS, file)
	if wrong != "" {
		b.faults.Add(decode.Position{File: file}, wrong, "a file that can be read", "")
		return
	}
	defer f.Close()
	log, faults := logbook.ReadPart(f)
	for _, fault := range faults {
		b.faults.Fault(decode.Position{File: file, Line: fault.Line, Column: fault.Column}, fault)
	}
	if b.waiting = log.Entries; b.has(log.Entries) {
		b.waiting = nil
	}
}

// has says whether the last rows of the sheet are these: a kill between the two
// steps of taking them in left them in both places.
func (b *Book) has(rows []logbook.Entry) bool {
	if len(rows) == 0 || len(rows) > len(b.log) {
		return false
	}
	log, _ := logbook.Of(b.log[len(b.log)-len(rows):])
	return slices.EqualFunc(log.Entries, rows, same)
}

func same(a, b logbook.Entry) bool { return a.Facts() == b.Facts() && a.Note == b.Note }

// Append adds rows to the logbook of the workbook at path, which the book was
// read from. When it returns no error the rows are on the disk: they go into a
// small file beside the workbook, and from there into it. Where that cannot be
// written, as another program has it open, they wait in the small file, and
// later says why. Where the workbook or the file is no longer what was read, the
// error is logbook.ErrChanged and nothing is added.
func (b *Book) Append(path string, rows []logbook.Entry) (later, err error) {
	wait := WaitingFile(path)
	if _, err := os.Stat(wait); err == nil && drain(path, nil, nil) == nil {
		return nil, logbook.ErrChanged
	}
	_, err = logbook.Append(wait, rows, func(now []logbook.Entry) bool {
		data, err := os.ReadFile(path)
		return err == nil && bytes.Equal(data, b.data) && slices.EqualFunc(now, b.waiting, same)
	})
	if err != nil {
		return nil, err
	}
	return drain(path, nil, nil), nil
}

// Add adds rows to sheets of the workbook at path, which the book was read
// from, all or none; rows that wait go in with them.
func (b *Book) Add(path string, rows Rows) error {
	return drain(path, rows, b.data)
}

// drain takes rows into the workbook: those that wait, and others where it is
// as it was read.
func drain(path string, more Rows, read []byte) error {
	return logbook.Drain(WaitingFile(path), func(waiting []logbook.Entry) error {
		dir, name := filepath.Split(path)
		now, err := Open(os.DirFS(filepath.Clean(dir+".")), name)
		switch {
		case err != nil:
			return err
		case read != nil && !bytes.Equal(read, now.data):
			return logbook.ErrChanged
		}
		rows := maps.Clone(more)
		if rows == nil {
			rows = Rows{}
		}
		if !now.has(waiting) {
			all := Rows{}
			all.Log(waiting)
			if all[logSheet] = append(all[logSheet], rows[logSheet]...); len(all[logSheet]) > 0 {
				rows[logSheet] = all[logSheet]
			}
		}
		if len(rows) == 0 {
			return nil
		}
		if err := elsewhere(path); err != nil {
			return err
		}
		puts, err := now.puts(rows)
		if err != nil {
			return err
		}
		book, err := sheet.Open(bytes.NewReader(now.data), int64(len(now.data)))
		if err != nil {
			return err
		}
		return durable.Replace(path, func(w io.Writer) error { return book.Add(w, puts) })
	})
}

// puts are the cells of rows below the last of each sheet.
func (b *Book) puts(rows Rows) (map[string][]sheet.Put, error) {
	out := map[string][]sheet.Put{}
	for name, add := range rows {
		t := b.tables[name]
		if t == nil || len(t.columns) == 0 {
			return nil, profiles.Errors{{Position: decode.Position{File: b.name}, What: "it has no sheet " + name + " with headings", Expected: "the sheets that tripwear new makes", Hint: "nothing was written"}}
		}
		next := t.last() + 1
		for _, row := range add {
			for _, k := range t.keys {
				if text := row[k.Path]; text != "" {
					out[t.tab] = append(out[t.tab], t.put(k, text, next)...)
				}
			}
			next++
		}
	}
	return out, nil
}

// last is the last row in which something was typed.
func (t *table) last() int {
	last := max(1, t.units)
	for _, r := range t.page.Rows {
		for _, c := range r.Cells {
			if c.Formula == "" {
				last = max(last, r.Number)
			}
		}
	}
	return last
}

// body is the last row that says something; 0 where there is none.
func (t *table) body() int {
	if last := t.last(); last > max(1, t.units) {
		return last
	}
	return 0
}

// put is a cell of a key, and a heading where the sheet has none for it.
func (t *table) put(k keys.Key, text string, row int) (out []sheet.Put) {
	i := slices.IndexFunc(t.columns, func(c column) bool { return c.path == k.Path })
	if i < 0 {
		end := 0
		for _, r := range t.page.Rows {
			for n := range r.Cells {
				end = max(end, n)
			}
		}
		for _, c := range t.columns {
			end = max(end, c.number)
		}
		t.columns = append(t.columns, column{path: k.Path, number: end + 1})
		i = len(t.columns) - 1
		out = append(out, sheet.Put{Row: 1, Column: end + 1, Text: heading(k.Path), Form: sheet.Text})
	}
	c := t.columns[i]
	p := sheet.Put{Row: row, Like: t.body(), Column: c.number, Text: text, Form: sheet.Text}
	_, dated := k.Value.Interface().(time.Time)
	number, unit, ok := apart(text)
	switch {
	case dated:
		p.Form = sheet.Day
	case measured(k) != nil && ok && unit == t.unit(sheet.Row{}, c):
		p.Text, p.Form = number, sheet.Number
	case numeric(k) && canonical(text):
		p.Form = sheet.Number
	}
	return append(out, p)
}

// RowsOf are the rows that a document of text stands for.
func RowsOf(file, text string) (Rows, error) {
	var errs decode.Errors
	folder := fstest.MapFS{file: &fstest.MapFile{Data: []byte(text)}}
	root := document(folder, file, &errs)
	if err := errs.Sorted(); err != nil {
		return nil, err
	}
	c := content{}
	c.fold(file, root)
	return c.rows(), nil
}

// rows are the rows in the making as rows to add.
func (c content) rows() Rows {
	out := Rows{}
	for name, lines := range c {
		for _, l := range lines {
			row := Row{}
			for _, e := range l {
				row[e.path] = e.text
			}
			out[name] = append(out[name], row)
		}
	}
	return out
}

// Log adds rows of the logbook.
func (r Rows) Log(entries []logbook.Entry) {
	for _, e := range entries {
		r[logSheet] = append(r[logSheet], Row(e.Row()))
	}
}

// Holds says whether the book has a row of the id that the rows to add have,
// and whether the two say the same.
func (b *Book) Holds(rows Rows) (there, same bool) {
	for name, is := range map[string]struct{ key, dir string }{circuitsSheet: {idKey, "circuits"}, oilSheet: {idKey, "oil"}, tripsSheet: {tripKey, "trips"}} {
		if len(rows[name]) == 0 {
			continue
		}
		row := rows[name][0]
		file := is.dir + "/" + row[is.key] + ".yaml"
		root := b.docs[file]
		if root == nil {
			return false, false
		}
		c := content{}
		c.fold(file, root)
		return true, maps.Equal(c.rows()[name][0], row)
	}
	return false, false
}
