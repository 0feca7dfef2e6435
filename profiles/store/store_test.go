package store

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/faulty"
	"example.com/tripwear/profiles/logbook"
)

// workbook is a garage of the juniper demo in a folder of its own.
func workbook(t *testing.T) string {
	t.Helper()
	demo, err := profiles.Demo("juniper")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "garage.xlsx")
	if _, err := Start(path, demo, nil); err != nil {
		t.Fatal(err)
	}
	return path
}

func opened(t *testing.T, path string) (*Store, *profiles.Folder) {
	t.Helper()
	s, err := Open(path, os.DirFS)
	if err != nil {
		t.Fatal(err)
	}
	f, err := profiles.Load(s.Files())
	if err != nil {
		t.Fatal(err)
	}
	return s, f
}

func row(t *testing.T, value string) logbook.Entry {
	t.Helper()
	e, faults := logbook.Parse(logbook.Row{"date": "2027-05-14", "odometer": "143900 mi", "what": "pad", "place": "RF", "value": value, "note": "a, b"})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return e
}

// values are the logbook's, as a load finds them.
func values(t *testing.T, path string) string {
	t.Helper()
	_, f := opened(t, path)
	var out []string
	for _, e := range f.Rows() {
		out = append(out, e.Written)
	}
	return strings.Join(out, ", ")
}

func appended(t *testing.T, path, value string) []string {
	t.Helper()
	for {
		s, f := opened(t, path)
		notes, err := s.Append([]logbook.Entry{row(t, value)}, f.Rows())
		if err == nil {
			return notes
		}
		if !errors.Is(err, logbook.ErrChanged) {
			t.Fatal(err)
		}
	}
}

// TestRowsWaitWhileItIsOpen: what is added while another program has the
// workbook open waits beside it, counts, and goes in with the next row.
func TestRowsWaitWhileItIsOpen(t *testing.T) {
	for _, lock := range []string{".~lock.garage.xlsx#", "~$garage.xlsx"} {
		path := workbook(t)
		dir := filepath.Dir(path)
		if notes := appended(t, path, "6.5 mm"); len(notes) > 0 || values(t, path) != "6.5 mm" {
			t.Errorf("%v, %s", notes, values(t, path))
		}
		if err := os.WriteFile(filepath.Join(dir, lock), nil, 0o600); err != nil {
			t.Fatal(err)
		}
		before, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		notes := appended(t, path, "6.4 mm")
		after, err := os.ReadFile(path)
		if err != nil || !bytes.Equal(before, after) {
			t.Errorf("the open workbook was written: %v", err)
		}
		if len(notes) != 2 || !strings.Contains(notes[0], "garage.waiting.csv") || values(t, path) != "6.5 mm, 6.4 mm" {
			t.Errorf("%v, %s", notes, values(t, path))
		}
		if s, _ := opened(t, path); len(s.Notes()) != 1 {
			t.Errorf("nobody says that a row waits: %v", s.Notes())
		}
		if err := os.Remove(filepath.Join(dir, lock)); err != nil {
			t.Fatal(err)
		}
		appended(t, path, "6.3 mm")
		if got := values(t, path); got != "6.5 mm, 6.4 mm, 6.3 mm" {
			t.Error(got)
		}
		if diff := cmp.Diff([]string{"garage.xlsx"}, faulty.Names(t, dir)); diff != "" {
			t.Errorf("left over (- wanted, + got):\n%s", diff)
		}
	}
}

// TestWorkbookThatCannotBeWritten: the row is not lost either, and told once.
func TestWorkbookThatCannotBeWritten(t *testing.T) {
	path := workbook(t)
	if err := os.Chmod(path, 0o444); err != nil {
		t.Fatal(err)
	}
	for _, value := range []string{"6.5 mm", "6.4 mm"} {
		if notes := appended(t, path, value); len(notes) == 0 || !strings.Contains(notes[0], "read-only") {
			t.Error(notes)
		}
	}
	if got := values(t, path); got != "6.5 mm, 6.4 mm" {
		t.Error(got)
	}
	if err := os.Chmod(path, 0o644); err != nil {
		t.Fatal(err)
	}
	appended(t, path, "6.3 mm")
	if got := values(t, path); got != "6.5 mm, 6.4 mm, 6.3 mm" {
		t.Error(got)
	}
}

// TestKilledBetween: a kill after the workbook was written and before the small
// file was emptied leaves rows in both; they count once.
func TestKilledBetween(t *testing.T) {
	path := workbook(t)
	appended(t, path, "6.5 mm")
	text, err := logbook.Text([]logbook.Entry{row(t, "6.5 mm")})
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(strings.TrimSuffix(path, ".xlsx")+".waiting.csv", text, 0o600); err != nil {
		t.Fatal(err)
	}
	if got := values(t, path); got != "6.5 mm" {
		t.Error(got)
	}
	appended(t, path, "6.4 mm")
	if got := values(t, path); got != "6.5 mm, 6.4 mm" {
		t.Error(got)
	}
}

// TestChangedMeanwhile: a workbook that somebody saved since it was read is
// read again first.
func TestChangedMeanwhile(t *testing.T) {
	path := workbook(t)
	s, f := opened(t, path)
	appended(t, path, "6.5 mm")
	if _, err := s.Append([]logbook.Entry{row(t, "6.4 mm")}, f.Rows()); !errors.Is(err, logbook.ErrChanged) {
		t.Errorf("error %v", err)
	}
	if _, _, err := s.Keep(report(t), []logbook.Entry{row(t, "6.4 mm")}, f.Rows()); err == nil || !strings.Contains(err.Error(), "changed the file meanwhile") {
		t.Errorf("error %v", err)
	}
	if got := values(t, path); got != "6.5 mm" {
		t.Error(got)
	}
}

const reportText = "key,value\nsampled,2027-04-01\nodometer,143300 mi\nfill.distance,2500 mi\nused.kv100,13.2 mm2/s\nused.iron,<20 ppm\n"

func report(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "2027-04.csv")
	if err := os.WriteFile(path, []byte(reportText), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// TestKeep: a report goes in with its row, a second time nothing does, and
// another one of its name is refused.
func TestKeep(t *testing.T) {
	path, file := workbook(t), report(t)
	for _, want := range []string{path, ""} {
		s, f := opened(t, path)
		entries := []logbook.Entry{row(t, "6.5 mm")}
		if want == "" {
			entries = nil
		}
		if kept, _, err := s.Keep(file, entries, f.Rows()); kept != want || err != nil {
			t.Errorf("kept %q, %v", kept, err)
		}
	}
	s, f := opened(t, path)
	if len(f.OilReports) != 2 || f.OilReports[1].Used.KV100 != 13.2 || f.OilReports[1].Sources["used.iron"].Value != "<20 ppm" || values(t, path) != "6.5 mm" {
		t.Errorf("%+v, %s", f.OilReports, values(t, path))
	}
	if err := os.WriteFile(file, []byte(strings.Replace(reportText, "13.2", "13.4", 1)), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, _, err := s.Keep(file, nil, nil); err == nil || !strings.Contains(err.Error(), "already, which differs") {
		t.Errorf("error %v", err)
	}
}

// TestSave: a circuit goes into its two sheets, its map beside the workbook, and
// never over another.
func TestSave(t *testing.T) {
	path := workbook(t)
	s, _ := opened(t, path)
	corners := "name: Ring\ncorners:\n  - {straight: 200 m, turn: 180 deg left, radius: 40 m}\n  - {straight: 200 m, turn: 180 deg left, radius: 40 m}\n"
	if written, err := s.Save(File{Name: "circuits/ring.yaml", Text: corners}); err != nil || len(written) != 1 {
		t.Errorf("%v, %v", written, err)
	}
	s, f := opened(t, path)
	if c := f.Circuits["ring"]; c.Name != "Ring" || len(c.Corners) != 2 {
		t.Errorf("%+v", c)
	}
	if _, err := s.Save(File{Name: "circuits/ring.yaml", Text: corners}); err == nil || !strings.Contains(err.Error(), "has circuits/ring already") {
		t.Errorf("error %v", err)
	}
	table, err := os.ReadFile("../../testdata/trace/map.csv")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.Save(File{Name: "maps/drawn.csv", Text: string(table)}, File{Name: "circuits/drawn.yaml", Text: "name: Drawn\ncsv: maps/drawn.csv\n"}); err != nil {
		t.Fatal(err)
	}
	_, f = opened(t, path)
	if f.Circuits["drawn"].Map == nil {
		t.Error("the map is not read")
	}
	// and it goes along into a folder, and back
	s, _ = opened(t, path)
	folder := filepath.Join(t.TempDir(), "car")
	if left, err := s.Convert(folder); err != nil || len(left) > 0 {
		t.Fatalf("%v, %v", left, err)
	}
	s, f = opened(t, folder)
	if f.Circuits["drawn"].Map == nil {
		t.Error("the map did not come along")
	}
	again := filepath.Join(t.TempDir(), "again.xlsx")
	if err := os.WriteFile(filepath.Join(folder, "diary.txt"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	left, err := s.Convert(again)
	if err != nil || len(left) != 1 || left[0] != "diary.txt" {
		t.Errorf("%v, %v", left, err)
	}
	if _, f = opened(t, again); f.Circuits["drawn"].Map == nil {
		t.Error("the map did not come back")
	}
	if _, err := s.Convert(again); !errors.Is(err, fs.ErrExist) {
		t.Errorf("over another: %v", err)
	}
}
