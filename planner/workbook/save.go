package workbook

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles/quantity"
)

// SaveError says why a workbook was not written. The file that was at the
// path before is as it was.
type SaveError struct {
	Path string
	Err  error
	hint string
}

// Error implements error.
func (e *SaveError) Error() string { return fmt.Sprintf("%s: %v", e.Path, e.Err) }

// Unwrap gives the cause.
func (e *SaveError) Unwrap() error { return e.Err }

// Hint says what to do about it.
func (e *SaveError) Hint() string { return e.hint }

// Save writes the plan to path. It writes beside the target and renames at
// the end, so that a failure leaves the old file whole.
func Save(path string, p *planner.Plan, units quantity.System) error {
	return save(path, func(w io.Writer) error { return Write(w, p, units) })
}

var (
	errFolder   = errors.New("is a folder, not a workbook")
	errNoFolder = errors.New("the folder does not exist")
)

func save(path string, write func(io.Writer) error) (err error) {
	mode := fs.FileMode(0o644)
	if info, statErr := os.Stat(path); statErr == nil {
		if info.IsDir() {
			return &SaveError{path, errFolder, "name a file in it, such as " + filepath.Join(path, "plan.xlsx")}
		}
		mode = info.Mode().Perm()
	}
	folder := filepath.Dir(path)
	tmp, err := os.CreateTemp(folder, ".tripwear-*.xlsx")
	if err != nil {
		if errors.Is(err, fs.ErrNotExist) {
			return &SaveError{path, errNoFolder, "make it first, or name another place to write to"}
		}
		return &SaveError{path, err, "name a place you may write to"}
	}
	defer func() {
		if err != nil {
			_ = tmp.Close() // already failing; a second close reports nothing new
			_ = os.Remove(tmp.Name())
		}
	}()
	if err := write(tmp); err != nil {
		return &SaveError{path, err, "see whether the disk is full"}
	}
	if err := tmp.Chmod(mode); err != nil {
		return &SaveError{path, err, "name a place that holds ordinary files"}
	}
	if err := tmp.Sync(); err != nil {
		return &SaveError{path, err, "see whether the disk is full"}
	}
	if err := tmp.Close(); err != nil {
		return &SaveError{path, err, "see whether the disk is full"}
	}
	if err := os.Rename(tmp.Name(), path); err != nil {
		return &SaveError{path, err, "close the workbook where it is open, then try again"}
	}
	return nil
}
