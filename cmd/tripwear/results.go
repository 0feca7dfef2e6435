package main

import (
	"errors"
	"io"
	"syscall"

	"example.com/tripwear/profiles/durable"
)

// results is standard output. It remembers what went wrong with it, so that
// no command has to: help and completion are printed by a library that does
// not look.
type results struct {
	to  io.Writer
	err error
}

func (r *results) Write(p []byte) (int, error) {
	n, err := r.to.Write(p)
	if r.err == nil {
		r.err = err
	}
	return n, err
}

// errPipe is a reader that went away, as head does once it has seen enough.
// That is no fault to speak of.
var errPipe = errors.New("the reader of the results went away")

// outcome is the error of a command, that of its printing included.
func (r *results) outcome(err error) error {
	switch {
	case r.err == nil:
		return err
	case err != nil && !errors.Is(err, r.err) && !errors.Is(err, errUnsafe):
		return err // the greater fault
	case errors.Is(r.err, syscall.EPIPE):
		return errPipe
	}
	return &useError{"the results could not be printed in full: " + durable.Reason(r.err),
		"what was to be saved is saved; print the results to a place that has room"}
}
