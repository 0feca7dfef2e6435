package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// Nothing that is printed has a color or any other escape sequence, so
// there is nothing for NO_COLOR to turn off: helps, answers, refusals, and the
// line that a terminal shows while it waits.
func TestPlain(t *testing.T) {
	car, trace := filepath.Join(t.TempDir(), "car"), "../../testdata/trace/heron-flats.gpx"
	lines := [][]string{
		{"new", car, "--demo"},
		{"check", "--car", car},
		{"plan", "--car", car, "-o", filepath.Join(t.TempDir(), "plan.xlsx")},
		{"plan", "--demo=fjord", "--assumptions"},
		{"plan", "--demo", "--json"},
		{"lasts", "pads", "--demo", "--circuit", "heron-flats"},
		{"compare", "--demo", "--with", "pace=advanced"},
		{"circuit", trace, "--car", car},
		{"circuit", "--rank", "LR", "--car", car},
		{"oil", "--demo"},
		{"log", "add", "hub", "play", "--at", "LR", "--odometer", "144308 mi", "--car", car},
		{"log", "show", "--car", car},
		{"learn", "--car", car},
		{"plan", "--demo=boat"},
		{"plan", "--car", "nowhere"},
		{"lasts", "--colour"},
		{"fly"},
	}
	if testing.Short() {
		lines = lines[:3]
	}
	lines = append(lines, helps()...)
	for _, args := range lines {
		var screen bytes.Buffer
		run(environment{stdout: &screen, stderr: &screen, now: time.Now, open: os.DirFS}, args)
		if screen.Len() == 0 || strings.ContainsAny(screen.String(), "\x1b\u009b") {
			t.Errorf("tripwear %s prints %q", strings.Join(args, " "), screen.String())
		}
	}
	if shown := watched(t, 1, "check", "--car", car); strings.ContainsAny(shown, "\x1b\u009b") {
		t.Errorf("a waiting terminal shows %q", shown)
	}
}
