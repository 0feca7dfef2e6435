//go:build windows

package logbook

import (
	"errors"
	"os"
	"syscall"
	"time"
)

// sharingViolation is ERROR_SHARING_VIOLATION, winerror.h.
const sharingViolation = syscall.Errno(32)

// patience is how long to wait for another program that has the file open.
const patience = 10 * time.Second

// lockFile opens the file so that no other process may write to it. The system
// ends that when the process ends, however it ends. A spreadsheet that has the
// file open keeps it from us: after a while that is an error.
func lockFile(path string) (*os.File, error) {
	name, err := syscall.UTF16PtrFromString(path)
	if err != nil {
		return nil, &os.PathError{Op: "open", Path: path, Err: err}
	}
	for waited := time.Duration(0); ; waited += 20 * time.Millisecond {
		h, err := syscall.CreateFile(name, syscall.GENERIC_READ|syscall.GENERIC_WRITE, syscall.FILE_SHARE_READ, nil,
			syscall.OPEN_ALWAYS, syscall.FILE_ATTRIBUTE_NORMAL, 0)
		switch {
		case err == nil:
			return os.NewFile(uintptr(h), path), nil
		case !errors.Is(err, sharingViolation) || waited > patience:
			return nil, &os.PathError{Op: "open (close it in the spreadsheet first)", Path: path, Err: err}
		}
		time.Sleep(20 * time.Millisecond)
	}
}
