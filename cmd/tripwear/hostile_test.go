//go:build unix

package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/cmd/tripwear/terminal"
)

const (
	hostileDir   = "../../testdata/hostile"
	leastHostile = 200
)

// TestHostile gives every command what is broken, wrong or meant to break it,
// from the tables of testdata/hostile, and wants the exact status and the exact
// words on stderr; the head of flags.txt tells the form. UPDATE=1 rewrites the
// messages: read each as an owner would before you keep it. With -short, as under
// the race detector, every fifth.
func TestHostile(t *testing.T) {
	clearSettings(t)
	files, err := filepath.Glob(filepath.Join(hostileDir, "*.txt"))
	if err != nil {
		t.Fatal(err)
	}
	all, step := 0, 1
	if testing.Short() {
		step = 5
	}
	for _, file := range files {
		file, err := filepath.Abs(file)
		if err != nil {
			t.Fatal(err)
		}
		table := readTable(t, file)
		all += len(table.cases)
		for i := 0; i < len(table.cases); i += step {
			c := &table.cases[i]
			t.Run(strings.TrimSuffix(filepath.Base(file), ".txt")+"/"+c.name, func(t *testing.T) {
				got := c.run(t)
				if os.Getenv("UPDATE") != "" {
					c.want = got
				}
				if diff := cmp.Diff(c.want, got); diff != "" {
					t.Errorf("stderr differs (- wanted, + got):\n%s", diff)
				}
			})
		}
		if os.Getenv("UPDATE") != "" {
			if err := os.WriteFile(file, []byte(table.String()), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
	if all < leastHostile {
		t.Errorf("%d cases, fewer than %d", all, leastHostile)
	}
}

// run lays a case out in a folder of its own, runs its command there, checks
// what is true of every command, and gives the status and stderr.
func (c *hostileCase) run(t *testing.T) string {
	t.Chdir(t.TempDir())
	for _, s := range c.steps {
		s.lay(t)
	}
	before := asItStands(t)
	r := command(t, c.args)
	r.checkAnswer(t)
	after := asItStands(t)
	if diff := cmp.Diff(before, after); diff != "" && r.status == terminal.ExitBadUse {
		t.Errorf("a command that failed changed files:\n%s", diff)
	}
	r.checkFiles(t, before, after)
	return fmt.Sprintf("%d\n%s", r.status, r.stderr)
}

// ran is what a command did.
type ran struct {
	args           []string
	status         int
	stdout, stderr string
}

// command runs a command line on a day of May 2027; a panic is the
// test's failure.
func command(t *testing.T, args []string) (r ran) {
	t.Helper()
	var out, errs bytes.Buffer
	w := environment{stdout: &out, stderr: &errs, open: os.DirFS, now: func() time.Time {
		return time.Date(2027, 5, 10, 12, 0, 0, 0, time.UTC)
	}}
	defer func() {
		if p := recover(); p != nil {
			t.Fatalf("tripwear %s: panic: %v", strings.Join(args, " "), p)
		}
	}()
	status := run(w, args)
	return ran{args, status, out.String(), errs.String()}
}

// asItStands is every file below the working folder with its contents; pipes and
// links with what they are.
func asItStands(t *testing.T) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := filepath.WalkDir(".", func(path string, d os.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case !d.Type().IsRegular():
			out[path] = d.Type().String()
			return nil
		}
		data, err := os.ReadFile(path)
		if len(data) > 1<<16 {
			out[path] = fmt.Sprintf("%d bytes", len(data))
		} else {
			out[path] = string(data)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}
