// Command tripwear plans what a drive to circuit days and home again takes
// from a car's tires, brakes, hub bearings and oil.
package main

import (
	"io"
	"io/fs"
	"os"
	"time"
)

// Exit statuses.
const (
	exitFine   = 0
	exitUnsafe = 1
	exitBadUse = 2
)

// world is what a command may touch outside its arguments.
type world struct {
	stdout, stderr io.Writer
	now            func() time.Time
	open           func(dir string) fs.FS
}

func main() {
	w := world{stdout: os.Stdout, stderr: os.Stderr, now: time.Now, open: os.DirFS}
	os.Exit(run(w, os.Args[1:]))
}

// run executes one command line and returns its exit status.
func run(w world, args []string) int {
	root := newRootCommand(w)
	root.SetArgs(args)
	return complain(w.stderr, root.Execute())
}
