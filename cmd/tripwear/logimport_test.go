package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/cmd/tripwear/terminal"
)

// do runs a command line on a day and gives what it printed.
func do(t *testing.T, day string, want int, args ...string) (stdout, stderr string) {
	t.Helper()
	var out, err bytes.Buffer
	w := environment{stdout: &out, stderr: &err, open: os.DirFS, now: func() time.Time {
		today, err := time.Parse(time.DateOnly, day)
		if err != nil {
			t.Fatal(err)
		}
		return today
	}}
	if status := run(w, args); status != want {
		t.Fatalf("%s: status %d, want %d\n%s%s", strings.Join(args, " "), status, want, out.String(), err.String())
	}
	return out.String(), err.String()
}

// write puts readings into a page of the Readings sheet: page 0 is before
// leaving; the keys are the wheel and what the row asks for.
func write(t *testing.T, path string, page int, entries map[string]any) {
	t.Helper()
	f, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := f.GetRows("Readings")
	if err != nil {
		t.Fatal(err)
	}
	at, wheel, left := -1, "", len(entries)
	for i, r := range rows {
		if len(r) == 0 {
			continue
		}
		if r[0] == "Before leaving" || strings.HasPrefix(r[0], "After leg") {
			at++
			wheel = "date"
		} else if r[0] != "" {
			wheel = r[0]
		} else if wheel == "date" {
			wheel = ""
		}
		if at != page || len(r) < 2 {
			continue
		}
		if v, ok := entries[strings.TrimSpace(wheel+" "+r[1])]; ok {
			left--
			if err := f.SetCellValue("Readings", fmt.Sprintf("G%d", i+1), v); err != nil {
				t.Fatal(err)
			}
		}
	}
	if left != 0 {
		t.Fatalf("%d entries found no row", left)
	}
	if err := f.Save(); err != nil {
		t.Fatal(err)
	}
}

// The loop is closed: plan, write the workbook, fill it in on the way, read it
// back, and learn from it.
func TestWorkbookToLogbook(t *testing.T) {
	dir := t.TempDir()
	car, book := filepath.Join(dir, "car"), filepath.Join(dir, "plan.xlsx")
	const before, home = "2027-05-01", "2027-06-01"
	do(t, before, terminal.ExitFine, "new", car, "--demo")
	do(t, before, terminal.ExitFine, "plan", "--car", car, "-o", book, "--quiet", "--draws", "1000")
	const serial = 46520 // 13 May 2027 as spreadsheets count days
	write(t, book, 0, map[string]any{"date": serial, "odometer": 143200, "RF pad, thinnest end": 6.8, "LF pad, thinnest end": 6.9})
	write(t, book, 3, map[string]any{"date": serial + 3, "odometer": 144400, "RF pad, thinnest end": 3.6, "RF tread, outside": 6.0})

	out, _ := do(t, home, terminal.ExitFine, "log", "import", book, "--car", car)
	for _, want := range []string{
		"added 2027-05-13 at 143200 mi: pad RF 6.8 mm\n",
		"added 2027-05-16 at 144400 mi: trip driven spring 1-3\n",
		"added 2027-05-16 at 144400 mi: tread RF outside 6/32 in\n",
	} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	if out, _ := do(t, home, terminal.ExitFine, "learn", "--car", car); !regexp.MustCompile(`Your front .* wear 1\.`).MatchString(out) || !strings.Contains(out, "pads-front RF") {
		t.Errorf("learned\n%s", out)
	}
	kept, err := os.ReadFile(filepath.Join(car, "logbook.csv"))
	if err != nil {
		t.Fatal(err)
	}
	if out, stderr := do(t, home, terminal.ExitFine, "log", "import", book, "--car", car); out != "" || !strings.Contains(stderr, "are in the logbook already") {
		t.Errorf("imported twice:\n%s%s", out, stderr)
	}

	// A page without a date, a value that grows, a file that is no workbook:
	// nothing is added.
	write(t, book, 4, map[string]any{"odometer": 144500, "engine oil level, warm": "full", "engine oil added since last page": 0.5})
	if _, stderr := do(t, home, terminal.ExitBadUse, "log", "import", book, "--car", car); strings.Count(stderr, "the page after leg 4: the date is missing") != 1 {
		t.Errorf("no date: %s", stderr)
	}
	write(t, book, 4, map[string]any{"date": serial + 4})
	write(t, book, 5, map[string]any{"date": serial + 5, "odometer": 145050, "RF pad, thinnest end": 9.5})
	if _, stderr := do(t, home, terminal.ExitBadUse, "log", "import", book, "--car", car); !strings.Contains(stderr, "pad at RF grows to 9.5 mm") {
		t.Errorf("grown: %s", stderr)
	}
	write(t, book, 5, map[string]any{"RF pad, thinnest end": "thin"})
	if _, stderr := do(t, home, terminal.ExitBadUse, "log", "import", book, "--car", car); !strings.Contains(stderr, "cell G") || !strings.Contains(stderr, `"thin" is not a number`) {
		t.Errorf("a word: %s", stderr)
	}
	other := filepath.Join(dir, "other.xlsx")
	if err := os.WriteFile(other, []byte("nothing"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, stderr := do(t, home, terminal.ExitBadUse, "log", "import", other, "--car", car); !strings.Contains(stderr, "hint: ") {
		t.Errorf("no workbook: %s", stderr)
	}
	if now, err := os.ReadFile(filepath.Join(car, "logbook.csv")); err != nil || !bytes.Equal(now, kept) {
		t.Errorf("the logbook changed: %v\n%s", err, now)
	}
}

// A later page comes in, then an earlier one of another copy of the workbook:
// the legs driven are split, none counts twice, and every command goes on.
func TestPagesInAnyOrder(t *testing.T) {
	dir := t.TempDir()
	car, later, earlier := filepath.Join(dir, "car"), filepath.Join(dir, "later.xlsx"), filepath.Join(dir, "earlier.xlsx")
	const before, home = "2027-05-01", "2027-06-01"
	do(t, before, terminal.ExitFine, "new", car, "--demo")
	for _, book := range []string{later, earlier} {
		do(t, before, terminal.ExitFine, "plan", "--car", car, "-o", book, "--quiet", "--draws", "200")
	}
	const serial = 46520 // 13 May 2027 as spreadsheets count days
	write(t, later, 5, map[string]any{"date": serial + 5, "odometer": 145050, "RF pad, thinnest end": 6.2})
	write(t, earlier, 2, map[string]any{"date": serial + 2, "odometer": 144290, "RF pad, thinnest end": 6.5})
	out, _ := do(t, home, terminal.ExitFine, "log", "import", later, "--car", car)
	if !strings.Contains(out, "added 2027-05-18 at 145050 mi: trip driven spring 1-6\n") {
		t.Errorf("later\n%s", out)
	}
	out, _ = do(t, home, terminal.ExitFine, "log", "import", earlier, "--car", car)
	for _, want := range []string{
		"added 2027-05-15 at 144290 mi: trip driven spring 1-2\n",
		"took back row 1: 2027-05-18 at 145050 mi: trip driven spring 1-6\n",
		"added 2027-05-18 at 145050 mi: trip driven spring 3-6\n",
		"added 2027-05-15 at 144290 mi: pad RF 6.5 mm\n",
	} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	do(t, home, terminal.ExitFine, "check", "--car", car)
	// Legs are driven and no row says that the rear tires went on before.
	if out, _ := do(t, before, terminal.ExitUnsafe, "plan", "--car", car, "--draws", "200"); !strings.Contains(out, "6 of 8 legs driven") {
		t.Errorf("the trip stands elsewhere:\n%s", out)
	}
	for _, book := range []string{later, earlier} {
		if out, stderr := do(t, home, terminal.ExitFine, "log", "import", book, "--car", car); out != "" || !strings.Contains(stderr, "in the logbook already") {
			t.Errorf("%s again:\n%s%s", book, out, stderr)
		}
	}

	// An earlier page that the later one speaks against writes nothing.
	kept, err := os.ReadFile(filepath.Join(car, "logbook.csv"))
	if err != nil {
		t.Fatal(err)
	}
	write(t, earlier, 1, map[string]any{"date": serial + 1, "odometer": 144210, "RF pad, thinnest end": 3.1})
	if _, stderr := do(t, home, terminal.ExitBadUse, "log", "import", earlier, "--confirm", "--car", car); !strings.Contains(stderr, "would no longer hold") {
		t.Errorf("against: %s", stderr)
	}
	if now, err := os.ReadFile(filepath.Join(car, "logbook.csv")); err != nil || !bytes.Equal(now, kept) {
		t.Errorf("the logbook changed: %v\n%s", err, now)
	}
}
