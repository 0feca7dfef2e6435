//go:build unix

package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/profiles/durable"
)

// ended is how a program ended.
type ended struct {
	out, stderr string
	code        int
}

// together runs the program once for each list of arguments, all at once.
func together(t *testing.T, dir string, all ...[]string) []ended {
	t.Helper()
	got := make([]ended, len(all))
	var wg sync.WaitGroup
	for i, args := range all {
		cmd := program(dir, asIs, args...)
		wg.Go(func() { got[i].out, got[i].stderr, got[i].code = status(t, cmd) })
	}
	wg.Wait()
	return got
}

// Two that make one car folder: one wins wholly, the other says that it is there.
func TestTwoNewAtOnce(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"car", "there"} {
		if name == "there" {
			if err := os.Mkdir(filepath.Join(dir, name), 0o755); err != nil {
				t.Fatal(err)
			}
		}
		demos := []string{"juniper", "fjord"}
		got := together(t, dir, []string{"new", name, "--demo", "--demo=" + demos[0]}, []string{"new", name, "--demo=" + demos[1]})
		won := -1
		for i, e := range got {
			if e.code == terminal.ExitFine && won < 0 {
				won = i
			} else if e.code != terminal.ExitBadUse || !strings.Contains(e.stderr, name+" is not empty") {
				t.Errorf("%s: %+v", name, got)
			}
		}
		if won < 0 {
			t.Fatalf("%s: nobody won: %+v", name, got)
		}
		alone := filepath.Join(dir, "alone-"+name)
		do(t, "2027-03-01", terminal.ExitFine, "new", alone, "--demo", "--demo="+demos[won])
		same(t, filepath.Join(dir, name), alone)
	}
	for name := range tree(t, dir) {
		if durable.Temporary(filepath.Base(name)) {
			t.Errorf("left over: %s", name)
		}
	}
}

// same fails unless two folders have the same files.
func same(t *testing.T, a, b string) {
	t.Helper()
	if x, y := fmt.Sprint(tree(t, a)), fmt.Sprint(tree(t, b)); x != y {
		t.Errorf("%s is not %s:\n%s\n%s", a, b, x, y)
	}
}

// Two plans into one workbook: it is one of them, whole.
func TestTwoPlansAtOnce(t *testing.T) {
	dir := owned(t)
	plan := func(units, book string) []string {
		return []string{"plan", "--car", "car", "--draws", "100", "--quiet", "--units", units, "-o", book}
	}
	for i, e := range together(t, dir, plan("us", "us.xlsx"), plan("metric", "metric.xlsx"), plan("us", "both.xlsx"), plan("metric", "both.xlsx")) {
		if e.code != terminal.ExitFine {
			t.Errorf("%d: %+v", i, e)
		}
	}
	books := tree(t, dir)
	if both := books["both.xlsx"]; both == "" || both != books["us.xlsx"] && both != books["metric.xlsx"] {
		t.Errorf("%d bytes that are of neither plan, %d and %d", len(both), len(books["us.xlsx"]), len(books["metric.xlsx"]))
	}
}

// Rows that come in at once are all there, each once, and checked by one
// another: of two imports of one file the second finds nothing to add, of two
// equal rows the second is asked about.
func TestRowsAtOnce(t *testing.T) {
	dir := owned(t)
	imports, add := writers["log import"].args, writers["log add"].args
	other := []string{"log", "add", "odometer", "--odometer", "143305 mi", "--date", "2026-05-03", "--car", "car"}
	got := together(t, dir, imports, imports, add, add, other)
	for i, e := range got {
		if i != 2 && i != 3 && e.code != terminal.ExitFine {
			t.Errorf("%d: %+v", i, e)
		}
	}
	for i := range 2 {
		if e, twin := got[2+i], got[3-i]; e.code != terminal.ExitFine && (twin.code != terminal.ExitFine || !strings.Contains(e.stderr, "the row is there already")) {
			t.Errorf("%d: %+v", i, e)
		}
	}
	log := tree(t, dir)["car/logbook.csv"]
	if !strings.HasPrefix(log, someRows()) {
		t.Errorf("the rows before are gone: %q", log)
	}
	for _, row := range []string{"hub,LF,,tight", "hub,LR,,tight", "hub,RR,,tight", "143305 mi,odometer"} {
		if n := strings.Count(log, row); n != 1 {
			t.Errorf("%s is there %d times: %q", row, n, log)
		}
	}
}
