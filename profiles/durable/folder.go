package durable

import (
	"cmp"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// NewFolder makes the folder dir with copies of files. A folder that does not
// exist yet appears whole. One that is there and empty is filled entry by
// entry, in a moment, and the entry named last comes last. One that holds
// anything stays as it is. The error is an *Error.
func NewFolder(dir string, files fs.FS, last string) error {
	stop := listen()
	defer stop.end()
	into := filepath.Dir(filepath.Clean(dir))
	info, err := os.Stat(dir)
	switch {
	case err == nil && !info.IsDir():
		return Problem(dir, errThere)
	case err == nil:
		into = dir
		if err := empty(dir); err != nil {
			return Problem(dir, err)
		}
	case !errors.Is(err, fs.ErrNotExist):
		return Problem(dir, err)
	default:
		if err := os.MkdirAll(into, 0o777); err != nil {
			return Problem(dir, err)
		}
	}
	t, err := newFolder(into)
	if err != nil {
		return Problem(dir, err)
	}
	defer t.drop()
	if err := copyAll(t.Name(), files); err != nil {
		return Problem(dir, err)
	}
	if err := stop.asked(); err != nil {
		return Problem(dir, err)
	}
	if into == dir {
		err = moveUp(t.Name(), dir, last)
	} else {
		err = t.move(func() error { return os.Rename(t.Name(), dir) })
	}
	if errors.Is(err, fs.ErrExist) { // another one was first
		err = errNotEmpty
	}
	if err != nil {
		return Problem(dir, err)
	}
	SyncFolder(into)
	return nil
}

// empty refuses a folder that holds more than temporaries.
func empty(dir string) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	for _, e := range entries {
		if !Temporary(e.Name()) {
			return errNotEmpty
		}
	}
	return nil
}

// copyAll puts files into a folder and onto the disk.
func copyAll(dir string, files fs.FS) error {
	return fs.WalkDir(files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		target := filepath.Join(dir, filepath.FromSlash(name))
		if d.IsDir() {
			return os.MkdirAll(target, 0o777)
		}
		data, err := fs.ReadFile(files, name)
		if err != nil {
			return err
		}
		f, err := os.OpenFile(target, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if err != nil {
			return err
		}
		_, err = f.Write(data)
		if err = errors.Join(err, f.Sync(), f.Close()); err == nil {
			SyncFolder(filepath.Dir(target))
		}
		return err
	})
}

// moveUp moves the entries of a temporary into dir, all or none. Folders come
// first: no system moves one onto another that holds something, so of two
// writers at once the second stops at its first entry.
func moveUp(from, dir, last string) error {
	entries, err := os.ReadDir(from)
	if err != nil {
		return err
	}
	rank := func(e fs.DirEntry) int {
		switch {
		case e.IsDir():
			return 0
		case e.Name() != last:
			return 1
		}
		return 2
	}
	slices.SortStableFunc(entries, func(a, b fs.DirEntry) int { return cmp.Compare(rank(a), rank(b)) })
	for i, e := range entries {
		move := name
		if e.IsDir() {
			move = os.Rename
		}
		if err := move(filepath.Join(from, e.Name()), filepath.Join(dir, e.Name())); err != nil {
			for _, moved := range entries[:i] {
				_ = os.RemoveAll(filepath.Join(dir, moved.Name()))
			}
			return err
		}
	}
	return nil
}
