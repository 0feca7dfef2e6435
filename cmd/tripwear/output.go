package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/durable"
)

// This file owns everything that goes to stderr and every exit status.
// An error is one line, "tripwear: " and what is wrong, lower case and without
// a full stop; what to do about it follows on a line of its own, "hint: ".
// Results go to stdout and nowhere else.

// errUnsafe is the answer "not safe as planned": the plan has said why.
var errUnsafe = errors.New("not safe as planned")

// useError is a wrong use of the command line.
type useError struct{ what, hint string }

func (e *useError) Error() string { return e.what }

// complain prints an error and turns it into the exit status.
func complain(w io.Writer, err error) int {
	var bad profiles.Errors
	var use *useError
	var file *durable.Error
	var stopped *durable.Stopped
	switch {
	case err == nil:
		return exitFine
	case errors.Is(err, errUnsafe):
		return exitUnsafe
	case errors.As(err, &bad):
		for _, e := range bad {
			say(w, e.Error(), e.Hint)
		}
	case errors.As(err, &use):
		say(w, use.what, use.hint)
	case errors.As(err, &file):
		say(w, file.Error(), file.Hint())
		if errors.As(err, &stopped) {
			return stopped.Status()
		}
	case errors.Is(err, fs.ErrPermission):
		say(w, err.Error(), "check who may read and write there")
	default:
		say(w, err.Error(), "tripwear help lists the commands")
	}
	return exitBadUse
}

func say(w io.Writer, what, hint string) {
	fmt.Fprintf(w, "tripwear: %s\n", what)
	if hint != "" {
		fmt.Fprintf(w, "hint: %s\n", hint)
	}
}
