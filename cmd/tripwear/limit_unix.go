//go:build unix

package main

import (
	"os/signal"
	"syscall"
)

// outliveFileLimit has a write beyond the limit on a file's size (ulimit -f)
// fail like one on a full disk, which is reported and tidied up, instead of ending
// the program.
func outliveFileLimit() { signal.Ignore(syscall.SIGXFSZ) }
