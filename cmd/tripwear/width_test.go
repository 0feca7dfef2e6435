package main

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/spf13/cobra"
)

// helps asks every command for its help.
func helps() (lines [][]string) {
	var walk func(*cobra.Command)
	walk = func(c *cobra.Command) {
		lines = append(lines, append(strings.Fields(c.CommandPath())[1:], "--help"))
		for _, sub := range c.Commands() {
			walk(sub)
		}
	}
	walk(newRootCommand(environment{}))
	return lines
}

// TestWidth: no command prints a line wider than the terminal, but for a single
// word that is.
func TestWidth(t *testing.T) {
	car, trace := filepath.Join(t.TempDir(), "car"), "../../testdata/trace/heron-flats.gpx"
	row := []string{"log", "add", "hub", "play", "--at", "LR", "--odometer", "144308 mi", "--date", "2027-05-10", "--car", car}
	broken := filepath.Join(t.TempDir(), "broken")
	for _, args := range [][]string{{"new", broken, "--demo"}, {"new", car, "--demo"}, row} {
		do(t, "2027-05-10", 0, args...)
	}
	for _, name := range []string{"car.yaml", "trips/spring.yaml"} {
		text := "colour: a red that anybody would know from far away\nmass: 7,4 kg\n"
		if err := os.WriteFile(filepath.Join(broken, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	lines := append(helps(), [][]string{
		{}, {"help", "first-season"}, {"help", "formats"}, {"help", "model"},
		{"check", "--car", car}, {"parts", "--car", car}, {"plan", "--car", car}, {"plan", "--car", car, "--all"},
		{"plan", "--demo"}, {"plan", "--demo", "--show", "assumptions"}, {"plan", "--demo=fjord", "--all", "--units", "metric"},
		{"lasts", "--demo", "--circuit", "heron-flats", "--days", "2"}, {"lasts", "--car", car, "--circuit", "quarry-ridge"},
		{"compare", "--demo", "--with", "pace=advanced", "--with", "alignment.rear.camber=-2.6deg", "--with", "sessions=4x20min"},
		{"circuit", "heron-flats", "--demo"}, {"circuit", "quarry-ridge", "--demo"}, {"circuit", trace, "--car", car}, {"circuit", "--rank", "LR", "--car", car},
		{"oil", "--demo"}, {"log", "show", "--car", car}, {"learn", "--car", car},
		{"log", "walk", "--car", car}, {"check", "--car", car, "-vv"}, {"new"}, {"frobnicate"}, {"plan", "nowhere", "--car", car}, {"plan", "--demo", "--frob"},
		{"lasts", "--car", car, "--circuit", "heron"}, {"log", "RF", "frob", "--car", car}, {"log", "add", "pad", "7,4", "--car", car}, {"check", "--car", broken},
		{"plan", "--demo", "--with", "mass=1"}, {"plan", "--car", broken, "--log-format", "console"}, {"circuit", "herron-flats", "--demo"}, {"new", filepath.Join(car, "new")},
	}...)
	for _, width := range []int{40, 60, 80, 120} {
		t.Setenv("COLUMNS", strconv.Itoa(width))
		for _, args := range lines {
			var out, errs bytes.Buffer
			run(environment{stdin: &typist{"?\nwobbly\n\n5.8\n5.8!\n", &out}, stdout: &out, stderr: &errs, now: func() time.Time { return time.Date(2027, 5, 10, 12, 0, 0, 0, time.UTC) }, open: os.DirFS}, append([]string{"--draws", "200"}, args...))
			if out.Len()+errs.Len() == 0 {
				t.Errorf("tripwear %s prints nothing", strings.Join(args, " "))
			}
			for line := range strings.Lines(out.String() + "\n" + errs.String()) {
				line = strings.TrimRight(line, "\n")
				if n := utf8.RuneCountInString(line); n > width && len(strings.Fields(line)) > 1 {
					t.Errorf("tripwear %s, %d columns: %d: %s", strings.Join(args, " "), width, n, line)
				}
			}
		}
	}
}

// typist types a line at a time into a terminal, which shows it.
type typist struct {
	left  string
	shown io.Writer
}

func (p *typist) Read(b []byte) (int, error) {
	line, rest, ok := strings.Cut(p.left, "\n")
	if !ok {
		return 0, io.EOF
	}
	p.left = rest
	io.WriteString(p.shown, line+"\n")
	return copy(b, line+"\n"), nil
}
