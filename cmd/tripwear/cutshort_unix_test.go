//go:build unix

package main

import (
	"bytes"
	"io/fs"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/profiles/durable"
)

// once starts a command, signals it when wait comes back, and gives how it
// ended.
func once(t *testing.T, dir string, sig syscall.Signal, wait func(), args ...string) ended {
	t.Helper()
	cmd := program(dir, asIs, args...)
	var out, stderr bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &stderr
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	wait()
	_ = cmd.Process.Signal(sig) // it may have ended already
	_ = cmd.Wait()
	return ended{out.String(), stderr.String(), cmd.ProcessState.ExitCode()}
}

// busy waits until something is being written in a folder, or a while.
func busy(dir string, most time.Duration) {
	for begin := time.Now(); time.Since(begin) < most; time.Sleep(200 * time.Microsecond) {
		found := false
		_ = filepath.WalkDir(dir, func(_ string, d fs.DirEntry, err error) error {
			found = found || err == nil && durable.Temporary(d.Name())
			return nil
		})
		if found {
			return
		}
	}
}

// Commands that are killed or stopped while they write leave what was there,
// or what they were to write, whole; a stop takes the temporary away, and after
// a kill the same command does, given again.
func TestCutShort(t *testing.T) {
	for name, w := range writers {
		if name == "log add" {
			continue // one row more, as log import
		}
		if name == "plan -o" && testing.Short() {
			continue // slow under the race detector; package workbook kills savers too
		}
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			done := owned(t)
			begin := time.Now()
			if out, stderr, code := status(t, program(done, asIs, w.args...)); code != terminal.ExitFine {
				t.Fatal(out, stderr)
			}
			took := time.Since(begin)
			after := tree(t, done)
			random := rand.New(rand.NewPCG(5, 6))
			for _, sig := range []syscall.Signal{syscall.SIGKILL, syscall.SIGINT, syscall.SIGKILL, syscall.SIGTERM} {
				dir := owned(t)
				before := tree(t, dir)
				e := once(t, dir, sig, func() {
					if strings.HasPrefix(name, "log ") { // it writes in place
						time.Sleep(took/4 + time.Duration(random.Int64N(int64(took))))
						return
					}
					busy(dir, 2*took)
				}, w.args...)
				now := tree(t, dir)
				for path, text := range now {
					switch {
					case durable.Temporary(filepath.Base(path)) || strings.Contains(path, "/.tripwear-"):
						if sig != syscall.SIGKILL {
							t.Errorf("%v left %s: %+v", sig, path, e)
						}
					case text != before[path] && text != after[path]:
						t.Errorf("%v left %s as %d bytes, %d before, %d at the end: %+v", sig, path, len(text), len(before[path]), len(after[path]), e)
					}
				}
				if e.code == terminal.ExitFine && now[w.file] != after[w.file] {
					t.Errorf("%v: it reported success: %+v", sig, e)
				}
				_, stderr, code := status(t, program(dir, asIs, w.args...))
				there := strings.Contains(stderr, "is there already") || strings.Contains(stderr, "is not empty") || strings.Contains(stderr, "is taken back already")
				if code != terminal.ExitFine && !(there && now[w.file] == after[w.file]) {
					t.Errorf("%v, then again: status %d, %q", sig, code, stderr)
				}
				if code == terminal.ExitFine {
					same(t, dir, done)
				}
			}
		})
	}
}
