//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package durable

import (
	"os"
	"syscall"
)

// openFilesMove says that a file may be renamed while it is open.
const openFilesMove = true

// claim locks a temporary unless another process holds it. The system takes
// the lock back when the process ends, however it ends.
func claim(f *os.File) bool {
	return syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB) == nil
}

// SyncFolder makes the names in a folder as durable as the files; file systems
// that cannot do not need it.
func SyncFolder(dir string) {
	if d, err := os.Open(dir); err == nil {
		_ = d.Sync()
		_ = d.Close()
	}
}
