package terminal

import (
	"errors"
	"io"
	"syscall"

	"example.com/tripwear/profiles/durable"
)

// Exit statuses.
const (
	ExitFine   = 0
	ExitUnsafe = 1
	ExitBadUse = 2
	ExitPipe   = 128 + 13 // what shells give to a program that a closed pipe ends
)

// Results is standard output. It remembers what went wrong with it, so that
// no command has to: help and completion are printed by a library that does
// not look.
type Results struct {
	To  io.Writer
	err error
}

func (r *Results) Write(p []byte) (int, error) {
	n, err := r.To.Write(p)
	if r.err == nil {
		r.err = err
	}
	return n, err
}

// errPipe is a reader that went away, as head does once it has seen enough.
// That is no fault to speak of.
var errPipe = errors.New("the reader of the results went away")

// Outcome is the error of a command, that of its printing included.
func (r *Results) Outcome(err error) error {
	switch {
	case r.err == nil:
		return err
	case err != nil && !errors.Is(err, r.err) && !errors.Is(err, ErrUnsafe):
		return err // the greater fault
	case errors.Is(r.err, syscall.EPIPE):
		return errPipe
	}
	return Misuse("the results could not be printed in full: "+durable.Reason(r.err),
		"what was to be saved is saved; print the results to a place that has room")
}
