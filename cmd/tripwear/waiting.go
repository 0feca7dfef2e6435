package main

import (
	"fmt"
	"io"
	"strings"
	"sync"
	"time"
)

// waiting shows a person at a terminal that a long command is at work: a line on
// stderr that counts the seconds from the first one on, and is gone before
// anything else is printed, in plain characters. A nil waiting shows nothing.
type waiting struct {
	out  io.Writer
	tick func() (every <-chan time.Time, stop func()) // a second each

	mu  sync.Mutex
	end func() // clears the line; nil where nothing is counted
}

// seconds is the tick of a real clock.
func seconds() (<-chan time.Time, func()) {
	t := time.NewTicker(time.Second)
	return t.C, t.Stop
}

// start begins to count for a command.
func (w *waiting) start(what string) {
	if w == nil {
		return
	}
	w.stop()
	w.mu.Lock()
	defer w.mu.Unlock()
	halt, ended := make(chan struct{}), make(chan struct{})
	w.end = func() { close(halt); <-ended }
	go func() {
		defer close(ended)
		w.count(what, halt)
	}()
}

func (w *waiting) count(what string, halt chan struct{}) {
	every, stop := w.tick()
	defer stop()
	width := 0
	for n := 1; ; n++ {
		select {
		case <-every:
			line := fmt.Sprintf("%s: working, %d s", what, n)
			width = len(line)
			fmt.Fprint(w.out, "\r"+line)
		case <-halt:
			if width > 0 {
				fmt.Fprint(w.out, "\r"+strings.Repeat(" ", width)+"\r")
			}
			return
		}
	}
}

// stop clears the line, and returns when it is gone.
func (w *waiting) stop() {
	if w == nil {
		return
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.end != nil {
		w.end()
		w.end = nil
	}
}

// before clears the line before anything goes to out.
func (w *waiting) before(out io.Writer) io.Writer { return clearing{w, out} }

type clearing struct {
	*waiting
	out io.Writer
}

func (c clearing) Write(b []byte) (int, error) {
	c.stop()
	return c.out.Write(b)
}
