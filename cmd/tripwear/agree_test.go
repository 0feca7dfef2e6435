package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	"example.com/tripwear/cmd/tripwear/config"
	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner/randomcar"
)

// TestAnswersAgree: text, JSON, workbook and exit status of one plan give one
// verdict and the same decisions, and lasts its status by what it says.
// TRIPWEAR_CASES sets how many owners are asked.
func TestAnswersAgree(t *testing.T) {
	clearSettings(t)
	dir := t.TempDir()
	randomcar.Check(t, 4, func(t *rapid.T) {
		o := randomcar.Draw(t, 20)
		files, err := o.Files()
		if err != nil {
			t.Fatal(err)
		}
		ask := func(args ...string) (int, string) {
			var out, errs bytes.Buffer
			status := run(environment{stdout: &out, stderr: &errs, now: func() time.Time { return o.Depart.AddDate(0, 0, -10) }, open: func(string) fs.FS { return files }},
				append(args, "--draws", "300", "--quiet"))
			if status != terminal.ExitFine && status != terminal.ExitUnsafe {
				t.Fatalf("%v: status %d: %s", args, status, errs.String())
			}
			return status, out.String()
		}
		book := filepath.Join(dir, "plan.xlsx")
		textStatus, text := ask("plan", randomcar.Trip, "--all")
		status, js := ask("plan", randomcar.Trip, "--json", "-o", book)
		var p struct {
			Safe    bool
			Verdict string
			Sets    []struct {
				Name     string
				Stop     []string
				Decision struct{ Action string }
			}
		}
		if err := json.Unmarshal([]byte(js), &p); err != nil {
			t.Fatal(err)
		}
		if textStatus != status || p.Safe != (status == terminal.ExitFine) {
			t.Errorf("status %d with text, %d with JSON, which says safe: %t", textStatus, status, p.Safe)
		}
		no := []string{"NOT SAFE AS PLANNED", "NO, NOT AS IT STANDS", "CAN'T SAY YET"}
		f, err := excelize.OpenFile(book)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		summary := cells(t, f, "Summary", 6)
		for name, said := range map[string]string{"the text": text, "the Summary": summary} {
			refuses := false
			for _, words := range no {
				refuses = refuses || strings.Contains(said, words)
			}
			if refuses == p.Safe {
				t.Errorf("JSON says safe: %t, %s the other way:\n%.400s", p.Safe, name, said)
			}
			if p.Verdict != "" && !strings.Contains(strings.ToUpper(said), p.Verdict) {
				t.Errorf("%s has no %q", name, p.Verdict)
			}
		}
		decisions, plain := cells(t, f, "Decisions", 200), strings.Join(strings.Fields(text), " ")
		for _, s := range p.Sets {
			if row := line(decisions, s.Name+"|"); !strings.HasPrefix(strings.ToLower(row), strings.ToLower(s.Name+"|"+s.Decision.Action)) {
				t.Errorf("%s: JSON says %s, the workbook %.80q", s.Name, s.Decision.Action, row)
			}
			for _, stop := range s.Stop {
				if !strings.Contains(plain, stop) || !strings.Contains(cells(t, f, "Summary", 60), stop) {
					t.Errorf("%s, %s: not said by the text or the workbook", s.Name, stop)
				}
			}
		}
		status, js = ask("lasts", "--circuit", "heron-flats", "--json")
		var l struct{ Lasts bool }
		if err := json.Unmarshal([]byte(js), &l); err != nil || l.Lasts != (status == terminal.ExitFine) {
			t.Errorf("lasts: status %d, JSON says %t, %v", status, l.Lasts, err)
		}
	})
}

// cells are the first rows of a sheet, their cells parted by bars.
func cells(t *rapid.T, f *excelize.File, sheet string, rows int) string {
	all, err := f.GetRows(sheet)
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for _, r := range all[:min(rows, len(all))] {
		fmt.Fprintln(&b, strings.Join(r, "|"))
	}
	return b.String()
}

// line is the first line that begins with some text, however it is capitalized.
func line(text, with string) string {
	for l := range strings.Lines(text) {
		if len(l) >= len(with) && strings.EqualFold(l[:len(with)], with) {
			return l
		}
	}
	return ""
}

// clearSettings takes the user's own settings from the environment.
func clearSettings(t *testing.T) {
	for _, key := range append([]string{"config"}, config.Keys...) {
		t.Setenv(config.Variable(key), "")
	}
}
