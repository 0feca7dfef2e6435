package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.com/tripwear/cmd/tripwear/terminal"
)

// at runs a command line at an instant of a zone.
func at(t *testing.T, now time.Time, args ...string) (printed string, status int) {
	t.Helper()
	var out bytes.Buffer
	w := environment{stdout: &out, stderr: &out, open: os.DirFS, now: func() time.Time { return now }}
	status = run(w, args)
	return out.String(), status
}

// The day of a row is the user's own, in any zone and at any hour, also in the
// nights in which the clocks change; it is never yet to come.
func TestRowHasTheUsersDay(t *testing.T) {
	car := filepath.Join(t.TempDir(), "car")
	do(t, "2027-03-01", terminal.ExitFine, "new", car, "--demo")
	zone := func(hours int) *time.Location { return time.FixedZone("", hours*3600) }
	for i, now := range []time.Time{
		time.Date(2027, 3, 14, 0, 30, 0, 0, zone(14)),
		time.Date(2027, 3, 14, 1, 59, 0, 0, zone(-5)), // a minute before the clocks go forward
		time.Date(2027, 3, 14, 3, 1, 0, 0, zone(-4)),  // and a minute after
		time.Date(2027, 3, 14, 23, 59, 0, 0, zone(-11)),
	} {
		odometer := []string{"143301 mi", "143302 mi", "143303 mi", "143304 mi"}[i]
		printed, status := at(t, now, "log", "add", "odometer", "--odometer", odometer, "--car", car)
		if want := "added 2027-03-14 at " + odometer + ": odometer\n"; printed != want || status != terminal.ExitFine {
			t.Errorf("%v: status %d, %q", now, status, printed)
		}
	}
	// Tomorrow is yet to come, even where it has begun elsewhere.
	printed, status := at(t, time.Date(2027, 3, 14, 20, 0, 0, 0, zone(-11)), "log", "add", "odometer", "--odometer", "143400 mi", "--date", "2027-03-15", "--car", car)
	if status != terminal.ExitBadUse || !strings.Contains(printed, "the date 2027-03-15 is yet to come") {
		t.Errorf("tomorrow: status %d, %q", status, printed)
	}
}

// With a clock that went back, a row takes no day from it without the user's
// word; a day that the user gives is checked against the rows, not by the clock.
func TestClockWentBack(t *testing.T) {
	car := filepath.Join(t.TempDir(), "car")
	do(t, "2027-03-01", terminal.ExitFine, "new", car, "--demo")
	do(t, "2027-03-14", terminal.ExitFine, "log", "add", "odometer", "--odometer", "143300 mi", "--car", car)
	file := filepath.Join(car, "logbook.csv")
	before, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	const back = "2001-01-01"
	add := []string{"log", "add", "odometer", "--odometer", "143300 mi", "--car", car}
	_, printed := do(t, back, terminal.ExitBadUse, add...)
	for _, want := range []string{"today is 2001-01-01 by this computer's clock, and the logbook has a row of 2027-03-14", "hint: give the day with --date, or set the clock", "nothing was added"} {
		if !strings.Contains(printed, want) {
			t.Errorf("no %q in %q", want, printed)
		}
	}
	// earlier than the row before, by a mile more: refused with the reason
	_, printed = do(t, back, terminal.ExitBadUse, "log", "add", "odometer", "--odometer", "143301 mi", "--date", "2000-12-31", "--car", car)
	if !strings.Contains(printed, "the odometer goes back: 143301 mi on 2000-12-31") {
		t.Errorf("%q", printed)
	}
	if now, err := os.ReadFile(file); err != nil || !bytes.Equal(now, before) {
		t.Errorf("the logbook is %q, %v", now, err)
	}
	do(t, back, terminal.ExitFine, append(add, "--confirm")...)
	// an older row with an odometer that goes with it may come late
	do(t, "2027-03-15", terminal.ExitFine, "log", "add", "odometer", "--odometer", "142900 mi", "--date", "2027-03-02", "--car", car)
}

// Times of files say nothing: all from years to come give the same plan, and
// take the next row and the next workbook.
func TestFilesFromTheFuture(t *testing.T) {
	dir := t.TempDir()
	car, book := filepath.Join(dir, "car"), filepath.Join(dir, "car", "plan.xlsx")
	const day = "2027-03-14"
	do(t, day, terminal.ExitFine, "new", car, "--demo")
	do(t, day, terminal.ExitFine, "log", "add", "odometer", "--odometer", "143300 mi", "--car", car)
	plan := []string{"plan", "--car", car, "--draws", "100", "--quiet", "-o", book}
	printed, _ := do(t, day, terminal.ExitFine, plan...)
	first, err := os.ReadFile(book)
	if err != nil {
		t.Fatal(err)
	}
	later := time.Now().AddDate(30, 0, 0)
	for _, name := range []string{"car.yaml", "logbook.csv", "plan.xlsx", "trips"} {
		if err := os.Chtimes(filepath.Join(car, name), later, later); err != nil {
			t.Fatal(err)
		}
	}
	again, _ := do(t, day, terminal.ExitFine, plan...)
	second, err := os.ReadFile(book)
	if err != nil {
		t.Fatal(err)
	}
	if again != printed || !bytes.Equal(first, second) {
		t.Error("another plan")
	}
	if info, err := os.Stat(book); err != nil || !info.ModTime().Before(later) {
		t.Errorf("the workbook is still the old one: %v, %v", info.ModTime(), err)
	}
	do(t, day, terminal.ExitFine, "log", "add", "odometer", "--odometer", "143301 mi", "--car", car)
}
