package durable

import (
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
)

// prefix begins the name of every temporary.
const prefix = ".tripwear-"

// digits is the length of the hexadecimal number that ends the name.
const digits = 16

// Temporary says whether a name is that of a temporary, and no other that a
// user may have thought of.
func Temporary(name string) bool {
	number, ok := strings.CutPrefix(name, prefix)
	return ok && len(number) == digits && strings.Trim(number, "0123456789abcdef") == ""
}

// temporary is a file or a folder that is being written, locked by its writer.
type temporary struct {
	*os.File
	closed bool
}

// newFile makes a temporary file in a folder.
func newFile(folder string) (*temporary, error) {
	return newTemporary(folder, func(path string) (*os.File, error) {
		return os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o666) // less what the user's mask takes
	})
}

// newFolder makes a temporary folder in a folder.
func newFolder(folder string) (*temporary, error) {
	return newTemporary(folder, func(path string) (*os.File, error) {
		if err := os.Mkdir(path, 0o777); err != nil {
			return nil, err
		}
		return os.Open(path)
	})
}

// attempts is how many names are tried. Others sweeping at the same moment may
// take a temporary away before it is locked.
const attempts = 1000

func newTemporary(folder string, make func(string) (*os.File, error)) (*temporary, error) {
	sweep(folder)
	for range attempts {
		path := filepath.Join(folder, fmt.Sprintf("%s%0*x", prefix, digits, rand.Uint64()))
		f, err := make(path)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if _, above := os.Stat(folder); errors.Is(err, fs.ErrNotExist) && above == nil {
			continue // a new folder was swept before it was opened
		}
		if err != nil {
			return nil, err
		}
		if claim(f) && isAt(f, path) {
			return &temporary{File: f}, nil
		}
		_ = f.Close()
		_ = os.RemoveAll(path)
	}
	return nil, fmt.Errorf("no name for a temporary in %s", folder)
}

// isAt says whether an open file is still the one at path.
func isAt(f *os.File, path string) bool {
	mine, err := f.Stat()
	if err != nil {
		return false
	}
	there, err := os.Lstat(path)
	return err == nil && os.SameFile(mine, there)
}

// move gives the temporary its name. Its lock lasts till then where the system
// allows that, so that nobody sweeps it away.
func (t *temporary) move(rename func() error) error {
	if !openFilesMove {
		t.closed = true
		if err := t.Close(); err != nil {
			return err
		}
	}
	return rename()
}

// drop takes away what is left of a temporary.
func (t *temporary) drop() {
	if !t.closed {
		_ = t.Close()
	}
	_ = os.RemoveAll(t.Name()) // gone already where all went well
}

// sweep takes away what killed writers left in a folder. It is a courtesy:
// what cannot go stays, and harms nobody.
func sweep(folder string) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return
	}
	for _, e := range entries {
		if !Temporary(e.Name()) || !e.IsDir() && !e.Type().IsRegular() {
			continue
		}
		path := filepath.Join(folder, e.Name())
		f, err := os.Open(path)
		if err != nil {
			continue
		}
		if claim(f) {
			_ = os.RemoveAll(path)
		}
		_ = f.Close()
	}
}
