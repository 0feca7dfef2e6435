package main

import (
	"strings"
	"testing"

	"example.com/tripwear/cmd/tripwear/terminal"
)

// Results that cannot be printed are reported, with a status; what the command was
// to save is saved.
func TestFullStandardOutput(t *testing.T) {
	dir := owned(t)
	for _, args := range [][]string{
		{"help"}, {"log", "show", "--help"}, {"completion", "bash"}, {"--version"},
		{"plan", "--demo", "--draws", "100"}, {"plan", "--demo", "--draws", "100", "--json"},
		{"log", "show", "--car", "car"}, {"check", "--car", "car"},
		{"new", "fresh", "--demo"}, writers["log add"].args,
	} {
		_, stderr, code := status(t, program(dir, `exec "$@" >/dev/full`, args...))
		if code != terminal.ExitBadUse || !strings.Contains(stderr, "the results could not be printed in full") || !strings.Contains(stderr, "hint: what was to be saved is saved") {
			t.Errorf("%v: status %d, %q", args, code, stderr)
		}
	}
	if log := tree(t, dir)["car/logbook.csv"]; strings.Count(log, "hub,RR,,tight") != 1 {
		t.Errorf("the row was reported as saved: %q", log)
	}
	if tree(t, dir)["fresh/car.yaml"] == "" {
		t.Error("the folder was reported as saved")
	}
}
