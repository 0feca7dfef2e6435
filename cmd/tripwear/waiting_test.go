package main

import (
	"bytes"
	"io/fs"
	"os"
	"strings"
	"testing"
	"time"

	"example.com/tripwear/cmd/tripwear/terminal"
)

// watched is an environment with a person at its terminal, whose clock ticks so many
// times before the command may read its car folder.
func watched(t *testing.T, ticks int, args ...string) (screen string) {
	t.Helper()
	var out bytes.Buffer
	lines := make(chan struct{})
	screenOf := writerFunc(func(b []byte) (int, error) {
		n, err := out.Write(b)
		if bytes.Contains(b, []byte("working")) {
			lines <- struct{}{}
		}
		return n, err
	})
	every := make(chan time.Time)
	w := environment{stdout: &out, stderr: &out, now: time.Now, open: os.DirFS}
	w.waiting = &terminal.Waiting{Out: screenOf, Tick: func() (<-chan time.Time, func()) { return every, func() {} }}
	open := w.open
	w.open = func(dir string) fs.FS {
		for ; ticks > 0; ticks-- {
			every <- time.Time{}
			<-lines
		}
		return open(dir)
	}
	if got := run(w, args); got != terminal.ExitFine {
		t.Fatalf("%v: exit status %d: %s", args, got, out.String())
	}
	return out.String()
}

type writerFunc func([]byte) (int, error)

func (f writerFunc) Write(b []byte) (int, error) { return f(b) }

// At a terminal the seconds are counted on one line, which is gone before the
// answer; nothing is shown of what takes less than a second.
func TestWaiting(t *testing.T) {
	car := t.TempDir()
	do(t, "2027-05-01", terminal.ExitFine, "new", car, "--demo")
	answer := watched(t, 0, "check", "--car", car)
	if !strings.HasPrefix(answer, "Juniper: ") {
		t.Errorf("a short command says %q", answer)
	}
	const line = "tripwear check: working, 2 s"
	want := "\rtripwear check: working, 1 s\r" + line + "\r" + strings.Repeat(" ", len(line)) + "\r" + answer
	if got := watched(t, 2, "check", "--car", car); got != want {
		t.Errorf("the terminal shows %q, not %q", got, want)
	}
}

// --quiet shows nothing, nor does its variable; a tick that nobody receives would block.
func TestWaitingQuiet(t *testing.T) {
	car := t.TempDir()
	do(t, "2027-05-01", terminal.ExitFine, "new", car, "--demo")
	if got := watched(t, 0, "check", "--quiet", "--car", car); strings.Contains(got, "\r") {
		t.Errorf("--quiet shows %q", got)
	}
}
