//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package logbook

import (
	"errors"
	"os"
	"syscall"
)

// lockFile opens the file to add to it and waits for its lock, which the
// system takes back when the process ends, however it ends.
func lockFile(path string) (*os.File, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_APPEND|os.O_CREATE, 0o644)
	if err != nil {
		return nil, err
	}
	for {
		err = syscall.Flock(int(f.Fd()), syscall.LOCK_EX)
		if err == nil {
			return f, nil
		}
		if !errors.Is(err, syscall.EINTR) {
			return nil, errors.Join(err, f.Close())
		}
	}
}
