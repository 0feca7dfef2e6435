package terminal

import (
	"fmt"
	"io"
	"strings"
	"sync"
	"time"
)

// Waiting shows a person at a terminal that a long command is at work: a line on
// stderr that counts the seconds from the first one on, and is gone before
// anything else is printed, in plain characters. A nil Waiting shows nothing.
type Waiting struct {
	Out  io.Writer
	Tick func() (every <-chan time.Time, stop func()) // a second each

	mu  sync.Mutex
	end func() // clears the line; nil where nothing is counted
}

// Seconds is the tick of a real clock.
func Seconds() (<-chan time.Time, func()) {
	t := time.NewTicker(time.Second)
	return t.C, t.Stop
}

// Start begins to count for a command.
func (w *Waiting) Start(what string) {
	if w == nil {
		return
	}
	w.Stop()
	w.mu.Lock()
	defer w.mu.Unlock()
	halt, ended := make(chan struct{}), make(chan struct{})
	w.end = func() { close(halt); <-ended }
	go func() {
		defer close(ended)
		w.count(what, halt)
	}()
}

func (w *Waiting) count(what string, halt chan struct{}) {
	every, stop := w.Tick()
	defer stop()
	width := 0
	for n := 1; ; n++ {
		select {
		case <-every:
			line := fmt.Sprintf("%s: working, %d s", what, n)
			width = len(line)
			fmt.Fprint(w.Out, "\r"+line)
		case <-halt:
			if width > 0 {
				fmt.Fprint(w.Out, "\r"+strings.Repeat(" ", width)+"\r")
			}
			return
		}
	}
}

// Stop clears the line, and returns when it is gone.
func (w *Waiting) Stop() {
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

// Before clears the line before anything goes to out.
func (w *Waiting) Before(out io.Writer) io.Writer { return clearing{w, out} }

type clearing struct {
	*Waiting
	out io.Writer
}

func (c clearing) Write(b []byte) (int, error) {
	c.Stop()
	return c.out.Write(b)
}
