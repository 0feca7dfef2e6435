package logbook

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"example.com/tripwear/profiles/faulty"
)

// writerEnv makes the test binary a writer that adds rows until it is killed.
const writerEnv = "TRIPWEAR_TEST_WRITER"

func TestMain(m *testing.M) {
	if path := os.Getenv(writerEnv); path != "" {
		writeForEver(path)
		return
	}
	os.Exit(m.Run())
}

func row(t testing.TB, fields Row) Entry {
	t.Helper()
	e, faults := Parse(fields)
	if len(faults) > 0 {
		t.Fatalf("%+v", faults)
	}
	return e
}

func numbered(n string) Row {
	return Row{"date": "2027-04-18", "odometer": "143900 mi", "what": "pad", "place": "RF", "value": "6.8 mm", "note": n}
}

// anyway takes rows whatever the logbook holds.
func anyway([]Entry) bool { return true }

// writeForEver adds a row and says so, over and over.
func writeForEver(path string) {
	for n := 0; ; n++ {
		name := fmt.Sprintf("%d-%d", os.Getpid(), n)
		e, _ := Parse(numbered(name))
		if _, err := Append(path, []Entry{e}, anyway); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		fmt.Println(name)
	}
}

// TestKills kills writers at random moments, two at a time: no row that was
// acknowledged is lost or there twice, and the file reads without a fault.
// TRIPWEAR_KILLS sets how many are killed.
func TestKills(t *testing.T) {
	kills := 60
	if s := os.Getenv("TRIPWEAR_KILLS"); s != "" {
		var err error
		if kills, err = strconv.Atoi(s); err != nil {
			t.Fatal(err)
		}
	}
	path := filepath.Join(t.TempDir(), "logbook.csv")
	random := rand.New(rand.NewPCG(1, 2))
	acknowledged := map[string]bool{}
	var mu sync.Mutex
	// A writer takes longer to start on a busy machine: go on till enough were
	// killed at work.
	start := untilFirstRow(t, filepath.Join(t.TempDir(), "logbook.csv"))
	done := 0
	for ; done < kills || len(acknowledged) < kills/4 && done < 20*kills; done += 2 {
		var wg sync.WaitGroup
		for range 2 {
			writer, err := faulty.StartWriter(writerEnv, path)
			if err != nil {
				t.Fatal(err)
			}
			wait := start/4 + time.Duration(random.Int64N(int64(2*start)+int64(10*time.Millisecond)))
			wg.Go(func() {
				timer := time.AfterFunc(wait, writer.Kill)
				defer timer.Stop()
				for {
					name, ok := writer.Line()
					if !ok {
						break
					}
					mu.Lock()
					acknowledged[name] = true
					mu.Unlock()
				}
				if said := writer.Wait(); said != "" {
					t.Error(said)
				}
			})
		}
		wg.Wait()
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	rows := map[string]int{}
	for _, e := range read(t, string(data)).Entries {
		rows[e.Note]++
	}
	for name := range acknowledged {
		if rows[name] != 1 {
			t.Errorf("row %s was acknowledged and is there %d times", name, rows[name])
		}
	}
	if len(acknowledged) < kills/4 {
		t.Errorf("only %d rows acknowledged over %d kills: the writers were killed too early to tell", len(acknowledged), done)
	}
	t.Logf("%d kills, %d rows acknowledged, %d in the file", done, len(acknowledged), len(rows))
}

// untilFirstRow is how long a writer takes from its start to its first row.
func untilFirstRow(t *testing.T, path string) time.Duration {
	t.Helper()
	begin := time.Now()
	writer, err := faulty.StartWriter(writerEnv, path)
	if err != nil {
		t.Fatal(err)
	}
	_, ok := writer.Line()
	took := time.Since(begin)
	writer.Kill()
	if said := writer.Wait(); !ok {
		t.Fatal("a writer wrote no row: ", said)
	}
	return took
}

// Writers at the same time lose no row of each other's.
func TestConcurrent(t *testing.T) {
	path := filepath.Join(t.TempDir(), "logbook.csv")
	const writers, each = 8, 25
	var wg sync.WaitGroup
	for w := range writers {
		wg.Go(func() {
			for n := range each {
				if _, err := Append(path, []Entry{row(t, numbered(fmt.Sprintf("%d-%d", w, n)))}, anyway); err != nil {
					t.Error(err)
				}
			}
		})
	}
	wg.Wait()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if n := len(read(t, string(data)).Entries); n != writers*each {
		t.Errorf("%d rows, want %d", n, writers*each)
	}
	if n := strings.Count(string(data), "date,"); n != 1 {
		t.Errorf("%d headers", n)
	}
}

// A row is added the way the file writes its rows.
func TestAppendFollowsTheFile(t *testing.T) {
	for _, c := range []struct{ before, after string }{
		{"", header + "2027-04-18,143900 mi,pad,RF,,6.8 mm,,x\n"},
		{header, header + "2027-04-18,143900 mi,pad,RF,,6.8 mm,,x\n"},
		{"value;zone;place;what;odometer;date;note\r\n", "value;zone;place;what;odometer;date;note\r\n6.8 mm;;RF;pad;143900 mi;2027-04-18;x\r\n"},
		{header + "2027-04-01,1 mi,odometer,,,,,", header + "2027-04-01,1 mi,odometer,,,,,\n2027-04-18,143900 mi,pad,RF,,6.8 mm,,x\n"},
		{header + "2027-04-01,1 mi,odom", header + "2027-04-18,143900 mi,pad,RF,,6.8 mm,,x\n"},
		{"\n\n", header + "2027-04-18,143900 mi,pad,RF,,6.8 mm,,x\n"},
		{"date,odo", header + "2027-04-18,143900 mi,pad,RF,,6.8 mm,,x\n"},
	} {
		path := filepath.Join(t.TempDir(), "logbook.csv")
		if c.before != "" {
			if err := os.WriteFile(path, []byte(c.before), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		torn, err := Append(path, []Entry{row(t, numbered("x"))}, anyway)
		if err != nil {
			t.Fatal(err)
		}
		got, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if string(got) != c.after {
			t.Errorf("%q became %q, want %q", c.before, got, c.after)
		}
		if cutOff := strings.HasSuffix(c.before, "odo") || strings.HasSuffix(c.before, "odom"); cutOff != (torn != "") {
			t.Errorf("%q: torn %q", c.before, torn)
		}
	}
}

// A file with faults, or without a column that the row needs, is left as it is.
func TestAppendRefuses(t *testing.T) {
	said := row(t, numbered("x"))
	said.Confirmed = true
	for _, before := range []string{header + "x,y,z,,,,,\n", "date,odometer,what,place,zone,value,note\n"} {
		path := filepath.Join(t.TempDir(), "logbook.csv")
		if err := os.WriteFile(path, []byte(before), 0o644); err != nil {
			t.Fatal(err)
		}
		if _, err := Append(path, []Entry{said}, anyway); err == nil {
			t.Errorf("%q took a row", before)
		}
		if after, err := os.ReadFile(path); err != nil || string(after) != before {
			t.Errorf("%q became %q, %v", before, after, err)
		}
	}
	if _, err := Append(filepath.Join(t.TempDir(), "none", "logbook.csv"), []Entry{said}, anyway); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("no folder: %v", err)
	}
	if _, faults := Read(failing{}); len(faults) != 1 {
		t.Errorf("a file that cannot be read: %+v", faults)
	}
}

type failing struct{}

func (failing) Read([]byte) (int, error) { return 0, io.ErrClosedPipe }

// Rows judged by a logbook that is no longer the one there are not added.
func TestAppendOnlyToWhatWasRead(t *testing.T) {
	path := filepath.Join(t.TempDir(), "logbook.csv")
	first := row(t, numbered("first"))
	if _, err := Append(path, []Entry{first}, func(now []Entry) bool { return len(now) == 0 }); err != nil {
		t.Fatal(err)
	}
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	unread := func(now []Entry) bool { return len(now) == 0 }
	if _, err := Append(path, []Entry{row(t, numbered("second"))}, unread); !errors.Is(err, ErrChanged) {
		t.Errorf("error %v", err)
	}
	if now, err := os.ReadFile(path); err != nil || !bytes.Equal(now, before) {
		t.Errorf("%q, %v", now, err)
	}
}

// A logbook kept elsewhere, behind a link, takes its rows there.
func TestAppendThroughALink(t *testing.T) {
	target, link := filepath.Join(t.TempDir(), "kept.csv"), filepath.Join(t.TempDir(), "logbook.csv")
	if err := os.Symlink(target, link); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"first", "second"} {
		if _, err := Append(link, []Entry{row(t, numbered(name))}, anyway); err != nil {
			t.Fatal(err)
		}
	}
	data, err := os.ReadFile(target)
	if err != nil || len(read(t, string(data)).Entries) != 2 {
		t.Errorf("%q, %v", data, err)
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link is now %v, %v", info.Mode(), err)
	}
}
