//go:build unix

package durable

import (
	"os/signal"
	"syscall"
)

// OutliveFileLimit has a write beyond the limit on a file's size (ulimit -f)
// fail like one on a full disk, which is reported and tidied up, instead of ending
// the program.
func OutliveFileLimit() { signal.Ignore(syscall.SIGXFSZ) }
