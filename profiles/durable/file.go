// Package durable writes files so that each is there whole or not at all,
// whatever happens meanwhile: a full disk, a kill, a stop from the keyboard,
// another writer. What is written goes into a temporary file beside its place,
// onto the disk, and only then under its name.
//
// A temporary's name is ".tripwear-" and 16 hexadecimal digits. It goes away
// when the writing ends, well or badly; one that a kill left is locked by
// nobody, and the next write in that folder takes it away.
package durable

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// Why a place takes no file.
var (
	errFolder   = errors.New("is a folder, not a file")
	errSpecial  = errors.New("is a pipe or a device, not a file")
	errReadOnly = errors.New("is read-only")
	errDangling = errors.New("is a link to a file that is not there")
	errThere    = errors.New("is there already")
	errNotEmpty = errors.New("is not empty")
)

// Replace puts a file at path, in place of the one that is there, if any: the
// mode stays, and a link goes on pointing to its file. A file that its owner
// made read-only is not replaced. The error is an *Error; the old file is then
// as it was.
func Replace(path string, write func(io.Writer) error) error {
	target, mode, err := destination(path)
	if err != nil {
		return Problem(path, err)
	}
	return put(path, target, write, func(t *temporary) error {
		if mode != 0 {
			if err := t.Chmod(mode); err != nil {
				return err
			}
		}
		return t.move(func() error { return os.Rename(t.Name(), target) })
	})
}

// Create puts a new file at path, in a folder that it makes where there is
// none. Where a file is there already, it stays, and the *Error is an
// fs.ErrExist.
func Create(path string, data []byte) error {
	if _, err := os.Lstat(path); err == nil {
		return Problem(path, errors.Join(errThere, fs.ErrExist))
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
		return Problem(path, err)
	}
	write := func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	}
	return put(path, path, write, func(t *temporary) error {
		return t.move(func() error { return name(t.Name(), path) })
	})
}

// name gives a file its name unless another has it.
func name(old, path string) error {
	err := os.Link(old, path)
	switch {
	case err == nil:
		return os.Remove(old)
	case errors.Is(err, fs.ErrExist):
		return errors.Join(errThere, fs.ErrExist)
	}
	if _, missing := os.Lstat(path); !errors.Is(missing, fs.ErrNotExist) {
		return errors.Join(errThere, fs.ErrExist)
	}
	return os.Rename(old, path) // a file system without links
}

// put writes a temporary beside the target and ends with done.
func put(path, target string, write func(io.Writer) error, done func(*temporary) error) error {
	stop := listen()
	defer stop.end()
	t, err := newFile(filepath.Dir(target))
	if err != nil {
		return Problem(path, err)
	}
	defer t.drop()
	if err := write(t); err != nil {
		return Problem(path, err)
	}
	if err := t.Sync(); err != nil {
		return Problem(path, err)
	}
	if err := stop.asked(); err != nil {
		return Problem(path, err)
	}
	if err := done(t); err != nil {
		return Problem(path, err)
	}
	SyncFolder(filepath.Dir(target))
	return nil
}

// destination is the file that path means, and its mode, 0 where there is none.
func destination(path string) (string, fs.FileMode, error) {
	at, err := os.Lstat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return path, 0, nil
	}
	if err != nil {
		return "", 0, err
	}
	target := path
	if at.Mode()&fs.ModeSymlink != 0 {
		if target, err = filepath.EvalSymlinks(path); errors.Is(err, fs.ErrNotExist) {
			return "", 0, errDangling
		} else if err != nil {
			return "", 0, err
		}
	}
	info, err := os.Stat(target)
	switch {
	case err != nil:
		return "", 0, err
	case info.IsDir():
		return "", 0, errFolder
	case !info.Mode().IsRegular():
		return "", 0, errSpecial
	case info.Mode()&0o200 == 0:
		return "", 0, errReadOnly
	}
	return target, info.Mode().Perm(), nil
}
