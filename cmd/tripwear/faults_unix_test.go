//go:build unix

package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/cmd/tripwear/terminal"
)

// program is the real program, run through a shell line that may spoil things
// first; "$@" stands for the program and its arguments.
func program(dir, shell string, args ...string) *exec.Cmd {
	cmd := exec.Command("sh", append([]string{"-c", shell, "sh", "tripwear"}, args...)...)
	cmd.Dir = dir
	for _, v := range os.Environ() {
		if !strings.HasPrefix(v, "TRIPWEAR_") {
			cmd.Env = append(cmd.Env, v)
		}
	}
	cmd.Env = append(cmd.Env, "HOME=/dev/null", "XDG_CONFIG_HOME=/dev/null") // no settings of the user's own
	return cmd
}

const asIs = `exec "$@"`

// status runs a command to its end, and gives the status a shell would see.
func status(t *testing.T, cmd *exec.Cmd) (stdout, stderr string, code int) {
	t.Helper()
	var out, errs bytes.Buffer
	if cmd.Stdout == nil {
		cmd.Stdout = &out
	}
	cmd.Stderr = &errs
	err := cmd.Run()
	var exit *exec.ExitError
	switch {
	case errors.As(err, &exit):
		ended := exit.Sys().(syscall.WaitStatus)
		code = ended.ExitStatus()
		if ended.Signaled() {
			code = 128 + int(ended.Signal())
		}
	case err != nil:
		t.Fatal(err)
	}
	return out.String(), errs.String(), code
}

// tree is everything in a folder, by path.
func tree(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			out[name] = "folder"
			return err
		}
		data, err := os.ReadFile(filepath.Join(dir, name))
		out[name] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

const columns = "date,odometer,what,place,zone,value,confirmed,note\n"

// someRows is a logbook of some 460 bytes: one row more goes beyond 512.
func someRows() string {
	rows := columns
	for day := 10; day < 22; day++ {
		rows += fmt.Sprintf("2026-04-%d,1430%d mi,odometer,,,,,\n", day, day)
	}
	return rows + "2026-04-22,143022 mi,pad,RF,,6.7 mm,,\n2026-04-23,143230 mi,trip driven,,,spring 2,,\n2026-04-23,143230 mi,pad,RF,,5.1 mm,,\n"
}

// writers is a command of each kind that writes, run in a folder that garage
// made, and the file that it writes.
var writers = map[string]struct {
	args []string
	file string
}{
	"plan -o":        {[]string{"plan", "--car", "car", "--draws", "100", "--quiet", "-o", "car/plan.xlsx"}, "car/plan.xlsx"},
	"plan -o, card":  {[]string{"plan", "--car", "car", "--draws", "100", "--quiet", "-o", "car/card.html"}, "car/card.html"},
	"season -o":      {[]string{"season", "--car", "car", "--draws", "100", "--quiet", "-o", "car/season.xlsx"}, "car/season.xlsx"},
	"new":            {[]string{"new", "car/other", "--demo"}, "car/other"},
	"new, workbook":  {[]string{"new", "car/other.xlsx", "--demo"}, "car/other.xlsx"},
	"convert":        {[]string{"convert", "car", "car/garage.xlsx"}, "car/garage.xlsx"},
	"man":            {[]string{"man", "car/pages"}, "car/pages"},
	"log add":        {[]string{"log", "add", "hub", "tight", "--at", "RR", "--odometer", "143300 mi", "--date", "2026-05-02", "--note", strings.Repeat("long ", 30), "--car", "car"}, "car/logbook.csv"},
	"log undo":       {[]string{"log", "undo", "1", "2", "3", "--date", "2026-05-02", "--note", strings.Repeat("long ", 30), "--car", "car"}, "car/logbook.csv"},
	"log correct":    {[]string{"log", "correct", "1", "--note", strings.Repeat("long ", 30), "--car", "car"}, "car/logbook.csv"},
	"log import":     {[]string{"log", "import", "weekend.csv", "--car", "car"}, "car/logbook.csv"},
	"circuit --save": {[]string{"circuit", "lap.gpx", "--car", "car", "--save", "kept"}, "car/circuits/kept.yaml"},
	"parts -o":       {[]string{"parts", "--car", "car", "--quiet", "-o", "car/parts.xlsx"}, "car/parts.xlsx"},
	"circuit -o":     {[]string{"circuit", "lap.gpx", "--car", "car", "--quiet", "-o", "car/lap.html"}, "car/lap.html"},
	"circuit, a map": {[]string{"circuit", "map.csv", "--car", "car", "--save", "drawn"}, "car/maps/drawn.csv"},
	"learn --share":  {[]string{"learn", "--car", "car", "--quiet", "--share", "car/rates.yaml"}, "car/rates.yaml"},
	"oil --keep":     {[]string{"oil", "2027-04.csv", "--car", "car", "--keep"}, "car/oil/2027-04.csv"},
}

const oilReport = `key,value
sampled,2027-04-01
odometer,143300 mi
fill.distance,2500 mi
fill.circuit,2 h
used.kv100,13.2 mm2/s
`

// owned is a folder with a car in it and the files that the commands read.
func owned(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	car := filepath.Join(dir, "car")
	do(t, "2026-05-02", terminal.ExitFine, "new", car, "--demo")
	lap, err := os.ReadFile("../../testdata/trace/heron-flats.gpx")
	if err != nil {
		t.Fatal(err)
	}
	drawn, err := os.ReadFile("../../testdata/trace/map.csv")
	if err != nil {
		t.Fatal(err)
	}
	long := strings.Repeat("x", 150)
	for name, text := range map[string]string{
		"car/logbook.csv": someRows(),
		"car/plan.xlsx":   "the old workbook",
		"lap.gpx":         string(lap),
		"map.csv":         string(drawn),
		"2027-04.csv":     oilReport + "laboratory," + strings.Repeat("Tarn Laboratory ", 4) + "\n",
		"weekend.csv":     columns + "2026-05-02,143300 mi,hub,LF,,tight,,note " + long + "\n2026-05-02,143300 mi,hub,LR,,tight,,note " + long + "\n",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// The disk is full from the first byte on, or after 512: a limit on the size of
// files, which binds any user, has writes fail as a full disk does. Everything
// is then as it was; the message names the file and what to do.
func TestFullDisk(t *testing.T) {
	for name, w := range writers {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			for _, blocks := range []string{"0", "1"} {
				if name == "oil --keep" && blocks == "1" {
					continue // the report is smaller
				}
				dir := owned(t)
				before := tree(t, dir)
				out, stderr, code := status(t, program(dir, `ulimit -f `+blocks+` && exec "$@"`, w.args...))
				if code != terminal.ExitBadUse || out != "" {
					t.Errorf("%s blocks: status %d, %q on stdout", blocks, code, out)
				}
				for _, want := range []string{"tripwear: " + w.file, "file too large", "\nhint: the disk or the allowance on it is full: make room, or name another place; nothing was written\n"} {
					if !strings.Contains(stderr, want) {
						t.Errorf("%s blocks: no %q in %q", blocks, want, stderr)
					}
				}
				after := tree(t, dir)
				maps.DeleteFunc(after, func(name, what string) bool { return what == "folder" })
				maps.DeleteFunc(before, func(name, what string) bool { return what == "folder" })
				if d := cmp.Diff(before, after); d != "" {
					t.Errorf("%s blocks: (-before +after)\n%s", blocks, d)
				}
			}
		})
	}
}

// A first row that found no room leaves a logbook without rows, which takes the
// next one.
func TestFirstRowOnAFullDisk(t *testing.T) {
	dir := owned(t)
	file := filepath.Join(dir, "car/logbook.csv")
	if err := os.Remove(file); err != nil {
		t.Fatal(err)
	}
	add := writers["log add"].args
	if _, stderr, code := status(t, program(dir, `ulimit -f 0 && exec "$@"`, add...)); code != terminal.ExitBadUse || !strings.Contains(stderr, "file too large") {
		t.Errorf("status %d, %q", code, stderr)
	}
	if left, err := os.ReadFile(file); err == nil && len(left) > 0 {
		t.Errorf("it left %q", left)
	}
	if out, stderr, code := status(t, program(dir, asIs, "log", "show", "--car", "car")); code != terminal.ExitFine || out != "no rows\n" || stderr != "" {
		t.Errorf("status %d, %q, %q", code, out, stderr)
	}
	if _, stderr, code := status(t, program(dir, asIs, add...)); code != terminal.ExitFine {
		t.Errorf("status %d, %q", code, stderr)
	}
}

// other has a command run by a user whom permissions bind, since root is free
// of them, and lets that user reach the program and the folder.
func other(t *testing.T, cmd *exec.Cmd) {
	t.Helper()
	if os.Getuid() != 0 {
		return
	}
	const nobody = 65534
	cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
	where, err := exec.LookPath("tripwear")
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{where, cmd.Dir} {
		for dir := filepath.Dir(path); len(dir) > len(filepath.Clean(os.TempDir())); dir = filepath.Dir(dir) {
			if err := os.Chmod(dir, 0o755); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// Where the user may read and not write, all is as it was.
func TestReadOnlyFolder(t *testing.T) {
	dir := owned(t)
	before := tree(t, dir)
	mode := func(file, folder fs.FileMode) {
		err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if d.IsDir() {
				return os.Chmod(path, folder)
			}
			return os.Chmod(path, file)
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	mode(0o444, 0o555)
	t.Cleanup(func() { mode(0o644, 0o755) })
	if err := os.Chmod(filepath.Join(dir, "car/plan.xlsx"), 0o666); err != nil { // only the folder forbids it
		t.Fatal(err)
	}
	for name, w := range writers {
		cmd := program(dir, asIs, w.args...)
		other(t, cmd)
		out, stderr, code := status(t, cmd)
		if code != terminal.ExitBadUse || out != "" || !strings.Contains(stderr, "tripwear: "+w.file) || !strings.Contains(stderr, "permission denied") ||
			!strings.Contains(stderr, "hint: name a place you may write to") {
			t.Errorf("%s: status %d, %q, %q", name, code, out, stderr)
		}
		if d := cmp.Diff(before, tree(t, dir)); d != "" {
			t.Errorf("%s: (-before +after)\n%s", name, d)
		}
	}
}

// A reader that goes away early, as head does, ends the program without a word,
// with the status of a closed pipe, whether the shell lets that signal
// through or not.
func TestClosedPipe(t *testing.T) {
	for _, shell := range []string{asIs, `trap '' PIPE; exec "$@"`} {
		for _, args := range [][]string{{"plan", "--demo", "--draws", "100"}, {"help", "formats"}} {
			r, w, err := os.Pipe()
			if err != nil {
				t.Fatal(err)
			}
			if err := r.Close(); err != nil {
				t.Fatal(err)
			}
			cmd := program(t.TempDir(), shell, args...)
			cmd.Stdout = w
			_, stderr, code := status(t, cmd)
			if code != terminal.ExitPipe || stderr != "" {
				t.Errorf("%s %v: status %d, %q", shell, args, code, stderr)
			}
			if err := w.Close(); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// A walk that is killed loses no answer that it said back, and has none twice.
func TestWalkKilled(t *testing.T) {
	dir := owned(t)
	file := filepath.Join(dir, "car/logbook.csv")
	if err := os.Remove(file); err != nil {
		t.Fatal(err)
	}
	answers := []string{"smooth", "tight", "6.9", "6.7", "checks", "tight"}
	for kill := 1; kill <= len(answers); kill++ {
		cmd := program(dir, asIs, "log", "walk", "--date", "2026-05-02", "--car", "car")
		in, err := cmd.StdinPipe()
		if err != nil {
			t.Fatal(err)
		}
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		said, lines := 0, bufio.NewScanner(out)
		for _, answer := range answers[:kill] {
			fmt.Fprintln(in, answer+"!")
			for lines.Scan() {
				if strings.Contains(lines.Text(), "; at ") {
					said++
					break
				}
			}
		}
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		_ = cmd.Wait() // it was killed
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if rows := strings.Count(string(data), "\n2026-05-02,"); said != kill || rows != said {
			t.Errorf("killed after %d answers: %d said back, %d rows in\n%s", kill, said, rows, data)
		}
		if err := os.Remove(file); err != nil {
			t.Fatal(err)
		}
	}
}
