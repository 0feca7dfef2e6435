package durable

import (
	"errors"
	"io/fs"
	"os"
	"slices"
	"syscall"
)

// Error says why a file was not written.
type Error struct {
	Path string // as the caller named it
	Err  error
}

// Problem keeps the cause and drops the name that the system gives the file,
// such as a temporary's, which says nothing to a user.
func Problem(path string, err error) error {
	var file *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &file):
		err = file.Err
	case errors.As(err, &link):
		err = link.Err
	}
	return &Error{path, err}
}

// Error implements error.
func (e *Error) Error() string {
	for _, is := range []error{errThere, errNotEmpty, errFolder, errSpecial, errReadOnly, errDangling} {
		if errors.Is(e.Err, is) {
			return e.Path + " " + is.Error()
		}
	}
	return e.Path + ": " + Reason(e.Err)
}

// Reason is what a file system says, in words of its owner and without the
// call and the path.
func Reason(err error) string {
	var file *fs.PathError
	var link *os.LinkError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "no such file or folder"
	case errors.Is(err, syscall.ENOTDIR):
		return "a file stands where a folder should"
	case errors.Is(err, syscall.EISDIR):
		return "a folder, not a file"
	case errors.Is(err, syscall.EINVAL), errors.Is(err, fs.ErrInvalid):
		return "not a name that a file can have"
	case errors.Is(err, syscall.ELOOP), err.Error() == "EvalSymlinks: too many links":
		return "a link that leads round in a circle"
	case errors.Is(err, syscall.ENAMETOOLONG):
		return "too long a name"
	case errors.As(err, &file):
		return file.Err.Error()
	case errors.As(err, &link):
		return link.Err.Error()
	}
	return err.Error()
}

// Unwrap gives the cause.
func (e *Error) Unwrap() error { return e.Err }

// Hint says what to do about it.
func (e *Error) Hint() string { return Remedy(e.Err) + "; nothing was written" }

// Remedy is what to do where a file system refuses to write.
func Remedy(err error) string {
	is := func(any ...error) bool {
		return slices.ContainsFunc(any, func(e error) bool { return errors.Is(err, e) })
	}
	var stopped *Stopped
	switch {
	case errors.As(err, &stopped):
		return "the command can be given again"
	case is(syscall.ENOSPC, syscall.EDQUOT, syscall.EFBIG):
		return "the disk or the allowance on it is full: make room, or name another place"
	case is(errReadOnly):
		return "make it writable, or name another file"
	case is(errFolder):
		return "name a file in it"
	case is(errDangling):
		return "remove the link, or name the file itself"
	case is(errThere, errSpecial):
		return "name another file, or remove that one"
	case is(errNotEmpty):
		return "name a folder that does not exist yet"
	case is(fs.ErrPermission), is(syscall.EROFS):
		return "name a place you may write to, and close the file in other programs"
	case is(syscall.ENOTDIR, syscall.EINVAL, syscall.ELOOP, fs.ErrInvalid):
		return "name another place"
	case is(syscall.ENAMETOOLONG):
		return "give it a shorter name"
	case is(fs.ErrNotExist):
		return "make the folder first, or name another place"
	}
	return "see whether the disk works and has room, and close the file in other programs"
}
