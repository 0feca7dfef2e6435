package main

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"example.com/tripwear/cmd/tripwear/terminal"
)

// BenchmarkDemo is the whole main job on the embedded demo, workbook included.
func BenchmarkDemo(b *testing.B) {
	path := filepath.Join(b.TempDir(), "plan.xlsx")
	w := environment{stdout: io.Discard, stderr: io.Discard, now: time.Now, open: os.DirFS}
	for b.Loop() {
		if status := run(w, []string{"plan", "--demo", "-o", path}); status != terminal.ExitFine {
			b.Fatalf("status %d", status)
		}
	}
}

// BenchmarkDemoScreen is the same without the workbook.
func BenchmarkDemoScreen(b *testing.B) {
	w := environment{stdout: io.Discard, stderr: io.Discard, now: time.Now, open: os.DirFS}
	for b.Loop() {
		if status := run(w, []string{"plan", "--demo"}); status != terminal.ExitFine {
			b.Fatalf("status %d", status)
		}
	}
}

// BenchmarkProcess is whole processes, from start to exit: the main job, a
// command that plans nothing, and a bare program with the same four libraries
// that writes an empty workbook.
func BenchmarkProcess(b *testing.B) {
	dir := b.TempDir()
	for _, program := range []string{".", "../../testdata/bench/bare"} {
		if out, err := exec.Command("go", "build", "-o", dir+string(filepath.Separator), program).CombinedOutput(); err != nil {
			b.Fatalf("%v: %s", err, out)
		}
	}
	path := filepath.Join(dir, "out.xlsx")
	for _, c := range []struct {
		name string
		args []string
	}{
		{"plan", []string{"tripwear", "plan", "--demo", "-o", path}},
		{"version", []string{"tripwear", "--version"}},
		{"bare", []string{"bare", "-o", path}},
	} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				cmd := exec.Command(filepath.Join(dir, c.args[0]), c.args[1:]...)
				cmd.Env = []string{} // no settings of the user's own
				if out, err := cmd.CombinedOutput(); err != nil {
					b.Fatalf("%v: %s", err, out)
				}
			}
		})
	}
}
