// Package store is where a car is kept: a folder of files, or one workbook. It
// opens either and adds to it what a command found out, whole or not at all.
package store

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/durable"
	"example.com/tripwear/profiles/garage"
	"example.com/tripwear/profiles/logbook"
)

// Store is a car folder, or a workbook in place of one.
type Store struct {
	fs.FS // its files, for profiles.Load
	path  string
	book  *garage.Book // nil for a folder
}

const howToName = "name the car folder with --car, or start one: tripwear new DIR"

// refusal is what cannot be done, and what to do instead.
func refusal(what, hint string) error { return profiles.Errors{{What: what, Hint: hint}} }

// Open opens what stands at a path; open gives the files of a folder.
func Open(path string, open func(dir string) fs.FS) (*Store, error) {
	files := open(path)
	info, err := fs.Stat(files, ".")
	switch {
	case garage.Is(path) && (err != nil || !info.IsDir()):
		book, err := garage.Open(open(filepath.Dir(path)), filepath.Base(path))
		if bad := (profiles.Errors)(nil); errors.As(err, &bad) {
			bad[0].File = path // of one fault: it cannot be opened
		}
		return &Store{book, path, book}, err
	case err != nil:
		return nil, refusal(path+": "+durable.Reason(err), howToName)
	case !info.IsDir():
		return nil, refusal(path+": a file, not a folder", howToName)
	}
	return &Store{files, path, nil}, nil
}

// Files is what profiles.Load reads.
func (s *Store) Files() fs.FS {
	if s.book != nil {
		return s.book
	}
	return s.FS
}

// Notes are what an owner should know of his workbook.
func (s *Store) Notes() (out []string) {
	if s.book == nil {
		return nil
	}
	return s.book.Notes()
}

// beside is a file of the folder, or of the one that the workbook lies in.
func (s *Store) beside(name string) string {
	dir := s.path
	if s.book != nil {
		dir = filepath.Dir(s.path)
	}
	return filepath.Join(dir, filepath.FromSlash(name))
}

// Append puts rows into the logbook that was read as rows; notes tell what
// happened beside. Where others added meanwhile it is logbook.ErrChanged.
func (s *Store) Append(entries, rows []logbook.Entry) (notes []string, err error) {
	path := s.beside(profiles.LogFile)
	if s.book != nil {
		path = s.path
		var later error
		if later, err = s.book.Append(path, entries); later != nil {
			notes = append(notes, "the row waits in "+garage.WaitingFile(path)+", where it counts, and goes into the workbook with the next one: "+later.Error())
			var told interface {
				error
				Hint() string
			}
			if errors.As(later, &told) {
				notes = append(notes, told.Hint())
			}
		}
	} else {
		var torn string
		torn, err = logbook.Append(path, entries, func(now []logbook.Entry) bool { return slices.Equal(rows, now) })
		if torn != "" {
			notes = append(notes, "the last row was cut off in writing and is taken away; enter it again: "+torn)
		}
	}
	var system syscall.Errno
	var known profiles.Errors
	var file *durable.Error
	switch {
	case err == nil, errors.Is(err, logbook.ErrChanged), errors.As(err, &known), errors.As(err, &file):
		return notes, err
	case errors.As(err, &system):
		return notes, durable.Problem(path, err)
	}
	return notes, refusal(path+": nothing was added: "+err.Error(), "put that right in the file, then try again")
}

// Keep puts a report on used oil into the store and rows into its logbook, both
// or neither. What a kill in between left undone, the next run makes good. It
// says where the report is, "" where it was there already.
func (s *Store) Keep(report string, entries, rows []logbook.Entry) (kept string, notes []string, err error) {
	data, err := os.ReadFile(report)
	if err != nil {
		return "", nil, refusal(report+": "+durable.Reason(err), notKept)
	}
	if s.book != nil {
		return s.keepInBook(filepath.Base(report), data, entries)
	}
	target := s.beside("oil/" + filepath.Base(report))
	fresh := false
	switch old, wrong := os.ReadFile(target); {
	case wrong == nil && bytes.Equal(old, data):
	case wrong == nil:
		return "", nil, refusal(target+" is there already and differs", "rename the new report, by its date; nothing was written")
	case !errors.Is(wrong, fs.ErrNotExist):
		return "", nil, refusal(target+": "+durable.Reason(wrong), notKept)
	default:
		if err := durable.Create(target, data); err != nil {
			return "", nil, err
		}
		fresh, kept = true, target
	}
	if len(entries) == 0 {
		return kept, nil, nil
	}
	notes, err = s.Append(entries, rows)
	if err != nil && fresh {
		_ = os.Remove(target) // already failing
	}
	return kept, notes, changedMeanwhile(err)
}

const notKept = "nothing was kept: see who may write there, and whether the disk is full"

func changedMeanwhile(err error) error {
	if errors.Is(err, logbook.ErrChanged) {
		return refusal("nothing was kept: another program changed the file meanwhile", "give the command again")
	}
	return err
}

func (s *Store) keepInBook(name string, data []byte, entries []logbook.Entry) (kept string, notes []string, err error) {
	rows, err := garage.RowsOf("oil/"+name, string(data))
	if err != nil {
		return "", nil, err
	}
	switch there, same := s.book.Holds(rows); {
	case there && !same:
		return "", nil, refusal(s.path+" has a report "+strings.TrimSuffix(name, filepath.Ext(name))+" already, which differs", "rename the new report, by its date; nothing was written")
	case there && len(entries) == 0:
		return "", nil, nil
	case there:
		rows = garage.Rows{}
	default:
		kept = s.path
	}
	rows.Log(entries)
	return kept, nil, s.add(rows)
}

// add puts rows into the workbook.
func (s *Store) add(rows garage.Rows) error {
	err := s.book.Add(s.path, rows)
	var open *garage.OpenElsewhere
	if errors.As(err, &open) {
		return refusal(open.Error(), open.Hint()+"; nothing was written")
	}
	return changedMeanwhile(err)
}

// File is a file of a car folder to be kept.
type File struct {
	Name, Text string // the name in the folder, with slashes
	Over       bool   // in place of the one that is there
}

// Save puts files into the store, all or none, and never over others unless
// they say so. A workbook takes the rows of those that are documents, and has
// the rest beside it. It says what was written.
func (s *Store) Save(files ...File) (written []string, err error) {
	rows := garage.Rows{}
	var fresh []string
	defer func() {
		for _, path := range fresh {
			if err != nil {
				_ = os.Remove(path) // already failing
			}
		}
	}()
	for _, f := range files {
		path, document := s.beside(f.Name), filepath.Ext(f.Name) == ".yaml"
		left, unread := os.ReadFile(path)
		switch {
		case document && s.book != nil:
			if err := s.rows(f, rows); err != nil {
				return nil, err
			}
			continue
		case !document && unread == nil && string(left) == f.Text:
			continue // a save that was cut off left it
		case f.Over:
			err = durable.Replace(path, func(w io.Writer) error {
				_, err := io.WriteString(w, f.Text)
				return err
			})
		default:
			err = durable.Create(path, []byte(f.Text))
		}
		if err != nil {
			return nil, err
		}
		if written = append(written, path); !f.Over {
			fresh = append(fresh, path)
		}
	}
	if len(rows) == 0 {
		return written, nil
	}
	return append(written, s.path), s.add(rows)
}

// rows adds the rows of a document that the workbook does not have.
func (s *Store) rows(f File, to garage.Rows) error {
	rows, err := garage.RowsOf(f.Name, f.Text)
	if err != nil {
		return err
	}
	if there, _ := s.book.Holds(rows); there {
		return refusal(s.path+" has "+strings.TrimSuffix(f.Name, ".yaml")+" already", "take its rows out of the sheets, or save it under another name; nothing was written")
	}
	for sheet, add := range rows {
		to[sheet] = append(to[sheet], add...)
	}
	return nil
}
