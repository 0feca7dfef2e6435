package durable

import (
	"os"
	"os/signal"
	"syscall"
)

// Stopped says that the user stopped the program before the file was in place.
type Stopped struct{ Signal os.Signal }

// Error implements error.
func (s *Stopped) Error() string { return "stopped before it was written" }

// stop holds back signals that end the program while something is written,
// which takes a moment, so that the temporary goes away first.
type stop chan os.Signal

// Status is the exit status that shells give to a program ended by a signal.
func (s *Stopped) Status() int {
	n, _ := s.Signal.(syscall.Signal)
	return 128 + int(n)
}

func listen() stop {
	s := make(stop, 1)
	for _, sig := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} {
		if !signal.Ignored(sig) {
			signal.Notify(s, sig)
		}
	}
	return s
}

// asked is a *Stopped where a signal came.
func (s stop) asked() error {
	select {
	case sig := <-s:
		return &Stopped{sig}
	default:
		return nil
	}
}

func (s stop) end() { signal.Stop(s) }
