package main

import (
	"fmt"
	"io"
	"strings"
	"sync"
	"time"
)

// waiting tells a person at a terminal that a long command is alive: a line on
// stderr that counts the seconds from the first one on, and is gone before
// anything else is printed. It is made of plain characters alone. A nil
// waiting tells nothing.
type waiting struct {
	out  io.Writer
	tick func() (every <-chan time.Time, stop func()) // a second each

	mu    sync.Mutex
	halt  chan struct{} // nil where nothing is told
	ended chan struct{}
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
	w.halt, w.ended = make(chan struct{}), make(chan struct{})
	every, stop := w.tick()
	go w.count(what, every, stop, w.halt, w.ended)
}

func (w *waiting) count(what string, every <-chan time.Time, stop func(), halt, ended chan struct{}) {
	defer close(ended)
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
	if w.halt != nil {
		close(w.halt)
		<-w.ended
		w.halt = nil
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
