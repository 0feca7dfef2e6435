//go:build unix

package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner/page"
	"example.com/tripwear/profiles/durable"
	"example.com/tripwear/profiles/faulty"
)

var (
	quoted    = regexp.MustCompile(`"(\\.|[^"\\])*"`)
	notNumber = regexp.MustCompile(`\bNaN\b|\bInf\b`)
	// leaks are words of the language, the system and the libraries that say
	// nothing to an owner.
	leaks  = regexp.MustCompile(`strconv\.|(^|[^.a-z])(yaml|xml|zip): |(^|: )(open|read|stat|lstat|mkdir|readdirent|fdopendir|rename) [^ ]+: |unmarshal|runtime error|goroutine|%!|invalid syntax|no such file or directory|is a directory|parse error|EOF|0x[0-9a-f]{6}|viper|cobra|pflag|mapstructure|XML syntax|encoding/|invalid argument|value out of range|map\[|\[\]string|<nil>|interface \{|\.go:\d|line \d+: did not find|anonymous struct`)
	atLine = regexp.MustCompile(`^[^ ].*(:\d+:\d+|\.(yaml|csv|gpx|xlsx)): `)
)

// checkAnswer checks what is true whatever a command is given.
func (r ran) checkAnswer(t *testing.T) {
	t.Helper()
	for _, s := range []string{r.stdout, r.stderr} {
		for _, arg := range r.args { // repeated
			s = strings.ReplaceAll(s, arg, "")
		}
		if m := notNumber.FindString(quoted.ReplaceAllString(s, "")); m != "" {
			t.Errorf("%q is printed", m)
		}
	}
	if r.status != terminal.ExitFine && r.status != terminal.ExitUnsafe && r.status != terminal.ExitBadUse {
		t.Errorf("status %d", r.status)
	}
	if r.status == terminal.ExitBadUse && r.stdout != "" || r.status == terminal.ExitUnsafe && r.stdout == "" {
		t.Errorf("status %d with %d bytes on stdout", r.status, len(r.stdout))
	}
	for line := range strings.Lines(r.stderr) {
		line = strings.TrimSuffix(line, "\n")
		if len([]rune(line)) > page.MostRunes+40 {
			t.Errorf("a line of %d characters", len([]rune(line)))
		}
		if i := strings.IndexFunc(line, func(r rune) bool { return !unicode.IsPrint(r) || r == unicode.ReplacementChar }); i >= 0 {
			t.Errorf("%q cannot be printed", line[i:])
		}
		if m := leaks.FindString(quoted.ReplaceAllString(line, "")); m != "" {
			t.Errorf("%q leaks in: %s", m, line)
		}
	}
	if r.status == terminal.ExitBadUse {
		r.helpful(t)
	}
}

// helpful checks that every error has its place and what to do about it.
func (r ran) helpful(t *testing.T) {
	t.Helper()
	lines := strings.Split(strings.TrimSuffix(r.stderr, "\n"), "\n")
	errs, hints := 0, 0
	for i, line := range lines {
		what, is := strings.CutPrefix(line, "tripwear: ")
		switch {
		case strings.HasPrefix(line, "hint: "):
			hints++
		case is:
			errs++
			hinted := i+1 < len(lines) && strings.HasPrefix(lines[i+1], "hint: ")
			if !r.placed(what) {
				t.Errorf("no place in: %s", line)
			}
			if !hinted && !strings.Contains(what, ", expected ") && !strings.Contains(what, ": write ") && i+1 == len(lines) {
				t.Errorf("nothing to do about: %s", line)
			}
		case !strings.HasPrefix(line, "INF ") && !strings.HasPrefix(line, "WRN "):
			t.Errorf("a line of no form: %s", line)
		}
	}
	if errs == 0 || hints == 0 {
		t.Errorf("%d errors and %d hints in:\n%s", errs, hints, r.stderr)
	}
}

// placed says whether a message names a line, a file, a flag, a variable, an
// argument or the command.
func (r ran) placed(what string) bool {
	if atLine.MatchString(what) || strings.Contains(what, "--") || strings.Contains(what, "TRIPWEAR_") || strings.HasPrefix(what, "VALUE: ") {
		return true
	}
	for _, name := range []string{"car.yaml", "parts.yaml", "model.yaml", "logbook.csv", "circuits", "trips", "oil"} {
		if strings.HasPrefix(what, name) {
			return true
		}
	}
	return slices.ContainsFunc(append(r.args, os.Getenv("TRIPWEAR_CAR")), func(arg string) bool {
		_, value, _ := strings.Cut(arg, "=")
		for _, s := range []string{arg, value} {
			s = strings.Trim(strconv.Quote(strings.TrimSpace(s)), `"`)
			if s != "" && strings.Contains(what, s[:min(len(s), 20)]) {
				return true
			}
		}
		return arg == "" && os.Getenv("TRIPWEAR_CAR") == "" && strings.Contains(what, `""`)
	})
}

// checkFiles checks that no temporary is left, and that a new workbook opens
// and has numbers only where its cells are typed as numbers.
func (r ran) checkFiles(t *testing.T, before, after map[string]string) {
	t.Helper()
	for path := range after {
		if durable.Temporary(filepath.Base(path)) {
			t.Errorf("%s is left over", path)
		}
		if _, old := before[path]; old || filepath.Ext(path) != ".xlsx" {
			continue
		}
		f, err := excelize.OpenFile(path)
		if err != nil {
			t.Errorf("%s: %v", path, err)
			continue
		}
		for _, sheet := range f.GetSheetList() {
			rows, err := f.GetRows(sheet)
			if err != nil {
				t.Error(err)
			}
			for i, row := range rows {
				for _, cell := range row {
					if notNumber.MatchString(cell) || strings.HasPrefix(cell, "#") && strings.ToUpper(cell) == cell {
						t.Errorf("%s, row %d: %s", sheet, i+1, cell)
					}
				}
			}
		}
	}
}

// TestBadFoldersEverywhere gives every command each folder of testdata/bad: all
// refuse it, helpfully, and change nothing.
func TestBadFoldersEverywhere(t *testing.T) {
	clearSettings(t)
	const dir = "../../testdata/bad"
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	base, err := faulty.Read(dir, faulty.Base)
	if err != nil {
		t.Fatal(err)
	}
	for i, e := range entries {
		if e.Name() == faulty.Base || testing.Short() && i%5 > 0 {
			continue
		}
		over, err := faulty.Read(dir, e.Name())
		if err != nil {
			t.Fatal(err)
		}
		files, err := over.Over(base)
		if err != nil {
			t.Fatal(err)
		}
		t.Run(strings.TrimSuffix(e.Name(), ".txtar"), func(t *testing.T) {
			t.Chdir(t.TempDir())
			if err := os.CopyFS("car", fs.FS(files)); err != nil {
				t.Fatal(err)
			}
			before := asItStands(t)
			for _, args := range [][]string{
				{"check"}, {"check", "--json"}, {"plan", "-o", "plan.xlsx"}, {"lasts", "--circuit", "oval"},
				{"compare", "--with", "pace=novice"}, {"circuit", "oval"}, {"learn"}, {"oil"},
				{"log", "show"}, {"log", "add", "odometer", "--odometer", "90000 mi"},
			} {
				r := command(t, append(args, "--car", "car"))
				r.checkAnswer(t)
				if r.status != terminal.ExitBadUse {
					t.Errorf("%v: status %d", args, r.status)
				}
			}
			for path, old := range asItStands(t) {
				if old != before[path] {
					t.Errorf("%s was changed", path)
				}
			}
		})
	}
}
