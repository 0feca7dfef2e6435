//go:build unix

package main

import (
	"archive/zip"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/profiles"
)

// hostileTable is a file of cases; what stands before the first is its head.
type hostileTable struct {
	head  string
	cases []hostileCase
}

// hostileCase is a command line, what is laid out before it, and its status
// and messages.
type hostileCase struct {
	name, given string // given is the case as written, down to its command line
	steps       []step
	args        []string
	want        string
}

// step lays something out; its words are unquoted.
type step []string

// readTable reads the form that the head of flags.txt describes.
func readTable(t *testing.T, file string) hostileTable {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var table hostileTable
	head, rest, _ := strings.Cut(string(data), "\n== ")
	table.head = head
	names := map[string]bool{}
	for _, text := range strings.Split(rest, "\n== ") {
		given, want, ok := strings.Cut(text, "\n$ ")
		line, want, _ := strings.Cut(want, "\n")
		name, steps, _ := strings.Cut(given, "\n")
		if !ok || names[name] {
			t.Fatalf("%s: case %q has no command, or is there twice", file, name)
		}
		names[name] = true
		c := hostileCase{name: name, given: given + "\n$ " + line + "\n", want: strings.TrimRight(want, "\n") + "\n", args: split(t, line)[1:]}
		for s := range strings.Lines(steps) {
			if words := split(t, s); len(words) > 0 {
				c.steps = append(c.steps, words)
			}
		}
		table.cases = append(table.cases, c)
	}
	return table
}

// String is the table as it is written.
func (h hostileTable) String() string {
	s := h.head + "\n"
	for i, c := range h.cases {
		if i > 0 {
			s += "\n"
		}
		s += "== " + c.given + c.want
	}
	return s
}

// split parts a line at spaces, outside of quoted words.
func split(t *testing.T, line string) []string {
	t.Helper()
	var out []string
	for line = strings.TrimSpace(line); line != ""; line = strings.TrimSpace(line) {
		word, rest, _ := strings.Cut(line, " ")
		if q, err := strconv.QuotedPrefix(line); err == nil {
			rest = line[len(q):]
			if word, err = strconv.Unquote(q); err != nil {
				t.Fatal(err)
			}
		}
		out, line = append(out, word), rest
	}
	return out
}

// lay does what a step says.
func (s step) lay(t *testing.T) {
	t.Helper()
	put := func(path string, data []byte) error {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		return os.WriteFile(path, data, 0o644)
	}
	var err error
	switch what, a := s[0], s[1:]; what {
	case "env":
		key, value, _ := strings.Cut(a[0], "=")
		t.Setenv(key, value)
	case "car":
		files, e := profiles.Demo("juniper")
		if e != nil {
			t.Fatal(e)
		}
		err = os.CopyFS("car", files)
	case "file":
		err = put(a[0], []byte(a[1]))
	case "edit":
		data, e := os.ReadFile(a[0])
		if e != nil || !strings.Contains(string(data), a[1]) {
			t.Fatalf("%s has no %q: %v", a[0], a[1], e)
		}
		err = os.WriteFile(a[0], []byte(strings.Replace(string(data), a[1], a[2], 1)), 0o644)
	case "fill":
		err = put(a[0], []byte(filled(t, a[1:])))
	case "dir":
		err = os.MkdirAll(a[0], 0o755)
	case "pipe":
		err = syscall.Mkfifo(a[0], 0o644)
	case "link":
		err = os.Symlink(a[1], a[0])
	case "gone":
		err = os.RemoveAll(a[0])
	case "book":
		if r := command(t, []string{"plan", "--car", "car", "-o", a[0], "--quiet", "--draws", "100"}); r.status == terminal.ExitBadUse {
			t.Fatal(r.stderr)
		}
	case "cell":
		err = setCells(a[0], a[1:])
	case "cut":
		n, e := strconv.ParseInt(a[1], 10, 64)
		if e != nil {
			t.Fatal(e)
		}
		err = os.Truncate(a[0], n)
	case "parts":
		n, e := strconv.Atoi(a[1])
		if e != nil {
			t.Fatal(e)
		}
		err = zipped(t, a[0], slices.Repeat([]string{"part", "", "", "0", ""}, n))
	case "zip":
		err = zipped(t, a[0], a[1:])
	default:
		t.Fatalf("unknown step %q", what)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// filled is a text with one part many times over: before, part, count, after.
func filled(t *testing.T, a []string) string {
	t.Helper()
	n, err := strconv.Atoi(a[2])
	if err != nil {
		t.Fatal(err)
	}
	return a[0] + strings.Repeat(a[1], n) + a[3]
}

// setCells writes into the Readings sheet of a workbook: cell, text, and so on.
func setCells(path string, a []string) error {
	f, err := excelize.OpenFile(path)
	for i := 0; err == nil && i+1 < len(a); i += 2 {
		err = f.SetCellValue("Readings", a[i], a[i+1])
	}
	if err != nil {
		return err
	}
	return f.Save()
}

// zipped writes an archive of parts, each with a name and what filled takes.
func zipped(t *testing.T, path string, a []string) error {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	z := zip.NewWriter(f)
	for ; len(a) >= 5; a = a[5:] {
		part, err := z.Create(a[0])
		if err != nil {
			return err
		}
		if _, err := part.Write([]byte(filled(t, a[1:5]))); err != nil {
			return err
		}
	}
	if err := z.Close(); err != nil {
		return err
	}
	return f.Close()
}
